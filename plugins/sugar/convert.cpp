#include "plugins/sugar/convert.hpp"

#include "plugins/chemistry/hydrometer.hpp"
#include "plugins/chemistry/refractometer.hpp"
#include "plugins/chemistry/sucrose.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

#include <cmath>

namespace vatwright::sugar::convert {
namespace {

constexpr MassFraction most_solids = 70.0 * percent_mass;
constexpr Temperature reference = chemistry::hydrometer_temperature;
// Common practice, from memory: see the source.
constexpr auto per_brix = 0.60 * percent_vol / percent_mass;

// Here a figure is asked for that is nothing but a reading: what it is must be said.
std::string_view what_read_it(const Inputs& in) {
  if (const auto t = in.get(lot::temperature); t && away_from_20(*t) && !in.has(instrument))
    throw InputError("is the reading already for 20 °C, or was it taken at " + print(*t, "°C", 1) + "?",
                     "say 'instrument: corrected' for a figure that is for 20 °C (a lot's density and soluble solids "
                     "are), else 'refractometer', 'hydrometer' or 'density meter'");
  return raw_instrument(in);
}

MassFraction from_index(Fraction reading, std::string_view by, Temperature t) {
  if (!by.empty() && by != refractometer) refuse_instrument("refractive index", by);
  const auto shown = chemistry::sucrose_by_refraction(reading);
  return by.empty() ? shown : chemistry::corrected_refraction(shown, t);
}

// What is dissolved, as sucrose at 20 °C. A lot may know both its density and its soluble solids.
MassFraction read(const Inputs& in) {
  const auto by = what_read_it(in);
  const Temperature t = in.get(lot::temperature).value_or(reference);
  if (const auto index = in.get(refractive_index)) return from_index(*index, by, t);
  for (const auto* scale : {&gravity, &oechsle, &baume, &lot::density})
    if (const auto reading = in.get(*scale)) return from_density(*reading, by, t);
  return from_solids(in[lot::soluble_solids], by, t);
}

void say_scales(const Inputs& in, MassConcentration sugar, Outcome& out) {
  const auto by_yield = [&](chemistry::YieldFactor factor) {
    return fmt::format("{} it is {}", print(factor * percent_vol, "g/L", 1),
                       print(chemistry::potential_alcohol(sugar, factor), "% vol", 2));
  };
  out.note(fmt::format("by the yield of {} of sugar for 1 % vol; with {}, with {}", print(in[yield], "g/L", 2),
                       by_yield(chemistry::least_usual_yield_factor), by_yield(chemistry::most_usual_yield_factor)));
  out.note(
      fmt::format("potential alcohol from a must's density is good to {}: musts differ in what else is dissolved "
                  "({} taken here), and other published allowances give up to 4 % less",
                  must_uncertainty, print(in[non_sugar], "% mass", 1)));
  out.note("°Bé is of modulus 145; SG is density over that of water, both at 20 °C; °Oe is 1000 (SG - 1)");
  if (const auto t = in.get(lot::temperature); t && away_from_20(*t))
    out.note(in.get(instrument) == corrected ? "the figure was taken as it stands, for 20 °C"
                                             : fmt::format("the reading of the {} at {} was corrected to 20 °C",
                                                           in.get(instrument), print(*t, "°C", 1)));
  if (in.has(lot::ethanol) && in[lot::ethanol] > 0.5 * percent_vol)
    out.note("there is alcohol in this lot: readings of a must do not hold for it; see sugar.fermentation");
}

void compare(const Inputs& in, MassFraction dissolved, Strength potential, Outcome& out) {
  const Strength rule = dissolved * per_brix;
  out.opinions.push_back({.name = "potential alcohol by 0.60 % vol for 1 °Brix",
                          .here = figure(potential, "% vol", 2),
                          .there = figure(rule, "% vol", 2),
                          .matters = std::abs((rule - potential) / percent_vol) > 1.0,
                          .source = std::string(jones_ough.title) + ": " + std::string(jones_ough.place)});
  const bool by_density = in.has(lot::density) && !in.has(refractive_index);
  if (const auto solids = in.get(lot::soluble_solids); solids && by_density)
    out.opinions.push_back({.name = "soluble solids as they were given beside the density",
                            .here = figure(dissolved, "°Brix", 2),
                            .there = figure(*solids, "°Brix", 2),
                            .matters = std::abs((*solids - dissolved) / percent_mass) > 0.5,
                            .source = "the lot's analysis"});
}

// What was measured stays, unless it was a raw reading: the lot's figures are for 20 °C.
template <class Quantity>
void learn(const Inputs& in, const Key<Quantity>& key, Quantity value, Outcome& out) {
  if (!in.has(key) || !raw_instrument(in).empty()) out.change(key, value);
}

}  // namespace

Outcome run(const Inputs& in) {
  const MassFraction dissolved = read(in);
  if (dissolved > most_solids || dissolved < MassFraction{})
    throw InputError("a reading of " + print(dissolved, "°Brix", 2) + " at 20 °C is not that of a must",
                     "look at the reading, at its unit and at its temperature: the scales are known here from 0 to " +
                         print(most_solids, "°Brix", 0));
  const Density at_20 = chemistry::sucrose_density(dissolved, reference);
  const auto sugar = chemistry::must_sugar(at_20, non_sugar_of(in));
  const auto potential = chemistry::potential_alcohol(sugar, yield_of(in));
  Outcome out;
  out.result(soluble_solids, dissolved);
  out.result(density, at_20);
  out.result(as_gravity, at_20);
  out.result(as_oechsle, at_20);
  out.result(as_baume, at_20);
  out.result(as_refraction, chemistry::sucrose_refractive_index(dissolved));
  out.result(sugar_found, sugar);
  out.result(potential_alcohol, potential);
  learn(in, lot::soluble_solids, dissolved, out);
  learn(in, lot::density, at_20, out);
  if (!in.has(lot::sugar)) out.change(lot::sugar, sugar);
  if (in.figures_only()) return out;
  say_scales(in, sugar, out);
  compare(in, dissolved, potential, out);
  return out;
}

}  // namespace vatwright::sugar::convert
