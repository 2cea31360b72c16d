// A step that has run, run once more without the host and with what it decided on held: its dose is
// in the tank by now. Its readings may be moved.
#pragma once

#include "tests/plugins/run.hpp"

#include <map>
#include <optional>
#include <string>

namespace vatwright::test {

class HeldStep final : public Inputs {
 public:
  explicit HeldStep(const StepSheet& step) : calculation_(calculation_of(step.calculation)) {
    for (const auto& used : step.inputs) values_[used.input] = used.value;
    for (const auto& result : step.outcome.results)
      if (result.info->decided) decided_[result.info] = result.number;
  }

  Outcome run() const { return calculation_.run(*this); }
  void move(const std::string& key, double by) {
    for (auto& [input, value] : values_)
      if (input->name == key) value.number += by;
  }
  // A model off by so many of its standard uncertainties.
  void lean(const ModelInfo& model, double by) {
    deviations_[&model] = by * model.standard * parse_unit(model.unit).slope(0);
  }
  void decide_anew() { decided_.clear(); }
  void scale_what_is_held(double factor) {
    for (auto& [info, number] : decided_) number *= factor;
  }

  const Value* find(const Input& input) const override {
    const auto at = values_.find(&input);
    return at == values_.end() ? nullptr : &at->second;
  }
  std::optional<LimitRow> limit(const LimitInfo&, const Analysis*) const override { return std::nullopt; }
  bool figures_only() const override { return true; }

 protected:
  double deviation(const ModelInfo& model) const override {
    const auto at = deviations_.find(&model);
    return at == deviations_.end() ? 0 : at->second;
  }
  std::optional<double> decided_number(const ResultInfo& info) const override {
    const auto at = decided_.find(&info);
    return at == decided_.end() ? std::nullopt : std::optional(at->second);
  }

 private:
  static const Calculation& calculation_of(const std::string& id) {
    static TestHouse house;
    std::string close;
    return *house.registry.find(id, close).calculation;
  }

  const Calculation& calculation_;
  std::map<const Input*, Value> values_;
  std::map<const ModelInfo*, double> deviations_;
  std::map<const ResultInfo*, double> decided_;
};

}  // namespace vatwright::test
