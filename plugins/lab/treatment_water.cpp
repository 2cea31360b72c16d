#include "plugins/lab/treatment_water.hpp"

#include "plugins/chemistry/water.hpp"
#include "plugins/lab/allowance.hpp"
#include "plugins/lab/rounding.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace vatwright::lab {
namespace {

Fraction water_before(const Inputs& in) { return in.get(lot::water_added).value_or(Fraction{}); }

Allowance<Fraction> water_law(const Inputs& in) { return {&water_limit, in[water_limit], water_before(in)}; }

}  // namespace

void count_water(const Inputs& in, Fraction share, Outcome& out) {
  constexpr Fraction all_of_it = coherent<Fraction>(1);
  out.change(lot::water_added, std::min<Fraction>(water_before(in) + share, all_of_it));
}

void pour_water(const Inputs& in, Fraction share, Outcome& out) {
  count_water(in, share, out);
  if (!(share > Fraction{})) return;
  const Volume water = share * in[lot::volume];
  out.poured = Poured{in[lot::volume], in[lot::volume] + water, water * chemistry::water_at_20};
}

bool too_much_water(const Inputs& in, Fraction share) { return water_law(in).passed_by(share); }

bool water_allows(const Inputs& in, Fraction share, const Watered& by, Outcome& out) {
  const auto law = water_law(in);
  if (!law.bound || !(share > Fraction{})) return true;
  const Fraction room = law.room();
  law.hold(
      share, 2,
      room > Fraction{}
          ? fmt::format("{}. A {} of {} or more keeps the rule for this dose", by.refused, by.name,
                        print(coherent<MassConcentration>(std::ceil((by.strength * share / room * (1 - hair)).value())),
                              "g/L", 0))
          : fmt::format("{}: earlier treatments have brought all the water that the rule allows", by.refused),
      out);
  note_taken_as_none(in, lot::water_added, "water of earlier treatments counts too", out);
  return !law.passed_by(share);
}

}  // namespace vatwright::lab
