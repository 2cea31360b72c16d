// Where a recipe takes a lot from that it does not describe itself: 'T7: from book'.
#pragma once

#include "host/plugin/description.hpp"
#include "host/plugin/readings.hpp"

#include <cstddef>
#include <map>
#include <string>
#include <vector>

namespace vatwright {

struct StoredLot {
  std::map<const Input*, Value> analysis;
  std::vector<const Input*> foretold;  // those of them that nobody measured
  std::vector<std::string> went_in;    // substances, each once, the first of them first
  std::string as_of;                   // "as the book had it on 2026-10-03 09:30 (entry 41)"
  std::string record;                  // JSON that a sheet carries, so that it can be computed anew; empty: none
};

// How far a calculation's forecasts of a fact were off from what was measured after them.
struct LearnedForecast {
  std::string calculation;
  const Input* fact = nullptr;
  std::size_t cases = 0;
  double bias = 0, off = 0;  // measured less forecast, as a mean, and as a root of the mean square; coherent
};

struct Lessons {
  std::vector<LearnedForecast> forecasts;  // those with cases enough
  std::string record;                      // JSON that a sheet carries, so that it can be computed anew
};

class LotSource {
 public:
  // Throws InputError where there is no such lot.
  virtual StoredLot find(const std::string& lot) const = 0;
  // For 'uncertainty: from book'. Throws InputError where nobody has kept any.
  virtual Lessons lessons() const = 0;

 protected:
  LotSource() = default;
  LotSource(const LotSource&) = default;
  LotSource& operator=(const LotSource&) = default;
  ~LotSource() = default;
};

}  // namespace vatwright
