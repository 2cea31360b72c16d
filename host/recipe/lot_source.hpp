// Where a recipe takes a lot from that it does not describe itself: 'T7: from book'.
#pragma once

#include "host/plugin/description.hpp"
#include "host/plugin/readings.hpp"

#include <map>
#include <string>
#include <vector>

namespace vatwright {

struct StoredLot {
  std::map<const Input*, Value> analysis;
  std::vector<const Input*> foretold;  // those of them that nobody measured
  std::string as_of;                   // "as the book had it on 2026-10-03 09:30 (entry 41)"
  std::string record;                  // JSON that a sheet carries, so that it can be computed anew; empty: none
};

class LotSource {
 public:
  // Throws InputError where there is no such lot.
  virtual StoredLot find(const std::string& lot) const = 0;

 protected:
  LotSource() = default;
  LotSource(const LotSource&) = default;
  LotSource& operator=(const LotSource&) = default;
  ~LotSource() = default;
};

}  // namespace vatwright
