#include "plugins/sugar/sweetener.hpp"

#include "plugins/chemistry/alcoholometry.hpp"
#include "plugins/chemistry/sucrose.hpp"
#include "plugins/lab/dose.hpp"
#include "units/print.hpp"

namespace vatwright::sugar {

Density Stirred::density() const { return chemistry::sucrose_density(*strength, chemistry::strength_temperature); }

double Stirred::left_by_rounding() const { return strength ? lab::left_by_cylinder : lab::left_by_balance; }

Mass Stirred::measured(Mass exact, lab::Rounding rounding) const {
  if (!strength) return lab::rounded<Mass>(exact, rounding, to_balance);
  return lab::rounded<Volume>(exact / density(), rounding, to_measure) * density();
}

void Stirred::order(std::string_view id, Mass added, Volume lot, Outcome& out) const {
  Addition addition{.substance = std::string(id)};
  if (strength) {
    addition.volume = added / density();
    addition.strength = print(*strength, "°Brix", 1);
    addition.dose = figure(*addition.volume / lot, "L/hL", 2);
  } else {
    addition.mass = added;
    addition.dose = figure(added / lot, "g/L", 2);
  }
  out.additions.push_back(std::move(addition));
}

Stirred stirred_in(const std::string& id, bool concentrated, std::optional<MassFraction> strength) {
  if (concentrated && !strength)
    throw InputError("rectified concentrated must needs its strength", "such as 'strength: 65 °Brix', from its paper");
  if (!concentrated && strength)
    throw InputError("strength was given, but " + id + " has none",
                     "say 'substance: rectified concentrated must', or leave strength out");
  return {concentrated ? chemistry::concentrated_must(*strength) : chemistry::sucrose_sweetener(), strength};
}

}  // namespace vatwright::sugar
