// What the rule sets say of a lot whose acid was moved.
#pragma once

#include "host/facts/account.hpp"
#include "plugins/acid/treatment.hpp"
#include "plugins/lab/allowance.hpp"
#include "plugins/lab/rounding.hpp"

#include <functional>
#include <optional>
#include <variant>
#include <vector>

namespace vatwright::acid {

// A limit, and how the figure that it is about follows from the dose.
struct Clause {
  std::variant<const Limit<Acidity>*, const Limit<MassConcentration>*, const Limit<Strength>*, const Limit<Ph>*,
               const Limit<Fraction>*>
      limit;
  LimitRow row;
  std::function<double(MassConcentration dose)> figure;  // coherent
  bool of_treated;                                       // binds no lot that nothing is added to

  bool binds(MassConcentration dose) const { return !of_treated || dose > MassConcentration{}; }
  bool passed(MassConcentration dose) const;
  void hold(MassConcentration dose, std::string remedy, Outcome& out) const;
};

class Law {
 public:
  // Does nothing where no rule set of the recipe has a figure. `of_treated`: see Clause.
  template <class Quantity, class Function>
  void add(const Inputs& in, const Limit<Quantity>& limit, Function figure, bool of_treated = false) {
    if (auto bound = in[limit])
      clauses_.push_back({&limit, std::move(bound->row),
                          [figure](MassConcentration dose) {
                            const Quantity value = figure(dose);
                            return value.value();
                          },
                          of_treated});
  }

  // A limit on what a treatment leaves: a lot that never had one, with none of `before`, is free of it.
  template <class Quantity, class Function>
  void add_of_treated(const Inputs& in, const Limit<Quantity>& limit, const Key<Acidity>& before, Function figure) {
    add(in, limit, figure, !(in.get(before).value_or(Acidity{}) > Acidity{}));
  }

  // What was done to the lot before, for a limit that counts it. None where the lot does not say: the
  // sheet tells what the limits rest on.
  template <class Quantity>
  Quantity counted(const Inputs& in, const Limit<Quantity>& limit, const Key<Quantity>& before) {
    if (!in.figures_only() && in[limit]) silence_.ask(in, before);
    return in.get(before).value_or(Quantity{});
  }
  MassConcentration counted(const Inputs& in, const Limit<MassConcentration>& limit, std::string_view substance) {
    if (!in.figures_only() && in[limit]) silence_.ask(in, lot::treated_with);
    return lab::added_before(in, substance);
  }

  // A limit on what was done to the lot before: it stands in the way of any dose at all.
  template <class Quantity>
  void add_history(const Inputs& in, const Limit<Quantity>& limit, const Key<Quantity>& before) {
    const auto past = [done = counted(in, limit, before)](MassConcentration) { return done; };
    add(in, limit, past, true);
  }

  // A limit on the fixed acidity that a treatment leaves: what titrates then, less what is volatile.
  template <class Function>
  void add_fixed(const Inputs& in, const Limit<Acidity>& limit, const Key<Acidity>& before, Function titratable,
                 Outcome& out) {
    add_of_treated(in, limit, before,
                   [titratable, less = in.get(lot::volatile_acidity).value_or(Acidity{})](
                       MassConcentration dose) -> Acidity { return titratable(dose) - less; });
    if (!in.figures_only() && !in.has(lot::volatile_acidity) && in[limit])
      out.note("volatile acidity was not given: the whole titratable acidity is counted as fixed");
  }

  bool forbids(MassConcentration dose) const;
  // The largest dose from zero to `most` that no limit forbids, for doses that make it ever worse.
  MassConcentration allowed(MassConcentration most) const {
    return lab::most_allowed(most, [&](MassConcentration dose) { return forbids(dose); });
  }
  // What of earlier treatments nobody states.
  void note_unstated(Outcome& out) const;
  // A check for each clause that binds.
  void hold(MassConcentration dose, Outcome& out) const;
  // Checks of the clauses that the dose would pass.
  void refuse(MassConcentration dose, const std::string& remedy, Outcome& out) const;

 private:
  std::vector<Clause> clauses_;
  facts::Silence silence_;
};

}  // namespace vatwright::acid
