// What the rule sets say of a lot whose acid was moved.
#pragma once

#include "plugins/acid/treatment.hpp"

#include <functional>
#include <variant>
#include <vector>

namespace vatwright::acid {

// A limit, and how the figure that it is about follows from the dose.
struct Clause {
  std::variant<const Limit<Acidity>*, const Limit<MassConcentration>*> limit;
  LimitRow row;
  std::function<double(MassConcentration dose)> figure;  // coherent

  bool passed(MassConcentration dose) const;
  void hold(MassConcentration dose, std::string remedy, Outcome& out) const;
};

class Law {
 public:
  // Does nothing where no rule set of the recipe has a figure.
  template <class Quantity, class Function>
  void add(const Inputs& in, const Limit<Quantity>& limit, Function figure) {
    if (auto bound = in[limit])
      clauses_.push_back({&limit, std::move(bound->row), [figure](MassConcentration dose) {
                            const Quantity value = figure(dose);
                            return value.value();
                          }});
  }

  bool forbids(MassConcentration dose) const;
  // The largest dose from zero to `most` that no limit forbids, for doses that make it ever worse.
  MassConcentration allowed(MassConcentration most) const;
  // A check for each clause.
  void hold(MassConcentration dose, Outcome& out) const;
  // Checks of the clauses that the dose would pass.
  void refuse(MassConcentration dose, const std::string& remedy, Outcome& out) const;

 private:
  std::vector<Clause> clauses_;
};

}  // namespace vatwright::acid
