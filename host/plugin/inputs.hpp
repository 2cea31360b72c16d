// What a calculation is given: parsed, unit-checked, ranged and defaulted by the host.
#pragma once

#include "host/plugin/law.hpp"
#include "host/plugin/readings.hpp"

#include <optional>
#include <string_view>
#include <utility>
#include <vector>

namespace vatwright {

class Inputs : public Readings {
 public:
  using Readings::operator[];

  // What the rule sets say of `lot`: of the lot as it stands when nullptr, or of one that is to be.
  // Rows that might apply count; of limits the strictest is given.
  virtual std::optional<LimitRow> limit(const LimitInfo& limit, const Analysis* lot) const = 0;
  virtual std::vector<TermRow> sweetness_terms(const Analysis* /*lot*/ = nullptr) const { return {}; }
  virtual std::vector<CompositionRule> composition_rules(const Analysis* /*lot*/ = nullptr) const { return {}; }
  virtual std::vector<AgentRule> agent_rules(std::string_view /*purpose*/, const Analysis* /*lot*/ = nullptr) const {
    return {};
  }

  template <class Quantity>
  std::optional<Bound<Quantity>> operator[](const Limit<Quantity>& key) const {
    return bound(key, nullptr);
  }
  template <class Quantity>
  std::optional<Bound<Quantity>> bound(const Limit<Quantity>& key, const Analysis* lot) const {
    if (auto row = limit(key, lot)) return Bound<Quantity>{Quantity::from_value(row->number), std::move(*row)};
    return std::nullopt;
  }

  // The figure that this step decided on when the sheet was computed, while readings are drawn
  // anew around their values: the dose is in the tank, and only what is known of the wine varies.
  // Nothing when the step is to decide. Only for results that are declared `.decided = true`.
  template <class Quantity>
  std::optional<Quantity> decided(const Result<Quantity>& key) const {
    if (const auto number = decided_number(key)) return Quantity::from_value(*number);
    return std::nullopt;
  }
  // How far a model of this calculation is taken to be off: nothing but while its uncertainty is found.
  template <class Quantity>
  Quantity operator[](const Model<Quantity>& model) const {
    return Quantity::from_value(deviation(model));
  }
  // True while readings are drawn: notes, opinions, tables and charts would not be looked at.
  virtual bool figures_only() const { return false; }

 protected:
  virtual double deviation(const ModelInfo& /*model*/) const { return 0; }  // coherent
  virtual std::optional<double> decided_number(const ResultInfo&) const { return std::nullopt; }

  Inputs() = default;
  Inputs(const Inputs&) = default;
  Inputs& operator=(const Inputs&) = default;
  ~Inputs() = default;
};

}  // namespace vatwright
