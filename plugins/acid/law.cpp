#include "plugins/acid/law.hpp"

#include <algorithm>
#include <cmath>

namespace vatwright::acid {
namespace {

constexpr double slack = 1e-9;
constexpr int halvings = 40;

// A figure that arithmetic leaves a hair beside the limit stands on it.
double settled(double value, double bound) { return std::abs(value - bound) <= slack * bound ? bound : value; }

}  // namespace

bool Clause::passed(MassConcentration dose) const {
  const double value = settled(figure(dose), row.number);
  return row.sense == Sense::at_most ? value > row.number : value < row.number;
}

void Clause::hold(MassConcentration dose, std::string remedy, Outcome& out) const {
  const double value = settled(figure(dose), row.number);
  const auto write = [&]<class Quantity>(const Limit<Quantity>* one) {
    out.hold(*one, Bound<Quantity>{Quantity::from_value(row.number), row}, Quantity::from_value(value), 2,
             std::move(remedy));
  };
  std::visit(write, limit);
}

bool Law::forbids(MassConcentration dose) const {
  return std::any_of(clauses_.begin(), clauses_.end(), [&](const Clause& c) { return c.passed(dose); });
}

MassConcentration Law::allowed(MassConcentration most) const {
  MassConcentration low{}, high = most;
  if (forbids(low)) return low;
  for (int i = 0; i < halvings; ++i) {
    const MassConcentration middle = (low + high) / 2.0;
    (forbids(middle) ? high : low) = middle;
  }
  return low;
}

void Law::hold(MassConcentration dose, Outcome& out) const {
  for (const auto& clause : clauses_) clause.hold(dose, "see the limit before anything more is done", out);
}

void Law::refuse(MassConcentration dose, const std::string& remedy, Outcome& out) const {
  for (const auto& clause : clauses_)
    if (clause.passed(dose)) clause.hold(dose, remedy, out);
}

}  // namespace vatwright::acid
