// The readings of a recipe that carry an uncertainty, the models of its calculations, which carry one of their own, and
// copies of the recipe in which they vary.
#pragma once

#include "host/bench/prepared.hpp"

#include <string>
#include <vector>

namespace vatwright {

struct Reading {
  std::string name;  // "free SO2 of T7", "target pH, step 2", "the model of sugar to alcohol, step 2"
  double value = 0;  // coherent
  double standard = 0;
  double low = 0, high = 0;          // what it can be
  bool of_lot = true;                // false: said by a step
  std::size_t origin = 0;            // that lot, or that step
  const ModelInfo* model = nullptr;  // of that step's calculation; nullptr: a reading
};

// Whether there is any reading that carries one.
bool has_readings(const Prepared& ready);

// A copy of the lots and of what the steps were given, whose readings can be set.
class Variant {
 public:
  explicit Variant(const Prepared& ready);
  // What is set points into it.
  Variant(const Variant&) = delete;
  Variant& operator=(const Variant&) = delete;

  const std::vector<Reading>& readings() const { return readings_; }
  // Within what the reading can be; gives back what was set.
  double set(std::size_t reading, double value);
  void reset(std::size_t reading) { *places_[reading] = readings_[reading].value; }

  const std::vector<BoundStep>& steps() const { return steps_; }
  const std::vector<LotState>& lots() const { return lots_; }

 private:
  struct Where {
    std::string words;  // " of T7", ", step 2"
    bool of_lot;
    std::size_t origin;
  };
  void collect(const Input& input, Value& value, const Where& where);
  void add_model(const ModelInfo& model, std::size_t step);
  void add(std::string name, const Input& input, double& place, double standard, const Where& where);

  std::vector<BoundStep> steps_;
  std::vector<LotState> lots_;
  std::vector<Reading> readings_;
  std::vector<double*> places_;
};

}  // namespace vatwright
