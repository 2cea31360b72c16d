#include "plugins/acid/law.hpp"

#include "units/print.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace vatwright::acid {

bool Clause::passed(MassConcentration dose) const { return binds(dose) && !row.met_by(figure(dose)); }

void Clause::hold(MassConcentration dose, std::string remedy, Outcome& out) const {
  if (!binds(dose)) return;
  const double value = figure(dose);
  const auto write = [&]<class Quantity>(const Limit<Quantity>* one) {
    out.hold(*one, Bound<Quantity>{Quantity::from_value(row.number), row}, Quantity::from_value(value), 2,
             std::move(remedy));
  };
  std::visit(write, limit);
}

bool Law::forbids(MassConcentration dose) const {
  return std::any_of(clauses_.begin(), clauses_.end(), [&](const Clause& c) { return c.passed(dose); });
}

void Law::note_unstated(Outcome& out) const {
  for (const auto& [who, on] : silence_.entries())
    out.note(fmt::format("{}: none is counted, and the limits on what was done before rest on that",
                         facts::does_not_state(who, fmt::format("{}", fmt::join(on, ", ")))));
}

void Law::hold(MassConcentration dose, Outcome& out) const {
  for (const auto& clause : clauses_) clause.hold(dose, "see the limit before anything more is done", out);
}

void Law::refuse(MassConcentration dose, const std::string& remedy, Outcome& out) const {
  for (const auto& clause : clauses_)
    if (clause.passed(dose)) clause.hold(dose, remedy, out);
}

}  // namespace vatwright::acid
