#include "plugins/sugar/alcohol.hpp"

#include "plugins/chemistry/alcoholometry.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

namespace vatwright::sugar::alcohol {
namespace {

MassFraction read(const Inputs& in) {
  const Temperature t = in[lot::temperature];
  if (const auto known = in.get(share)) return *known;
  if (const auto measured = in.get(distillate_density)) return chemistry::ethanol_mass_fraction(*measured, t);
  const auto by = in[instrument] == density_meter ? chemistry::Alcoholometer::density_meter
                                                  : chemistry::Alcoholometer::glass_hydrometer;
  return chemistry::ethanol_by_mass(chemistry::strength_from_apparent(in[apparent], t, by));
}

void say(const Inputs& in, Outcome& out) {
  if (in.has(share)) return;
  out.note(fmt::format("taken as read at {}; if it was read elsewhere, give that 'temperature' in the step",
                       print(in[lot::temperature], "°C", 1)));
  out.note(in.has(apparent)
               ? "an alcoholometer reads ethanol and water: distil a wine first, or its extract and sugar "
                 "hide part of the alcohol"
               : "this is the wine's strength when the distillate was made up to the volume of the sample, "
                 "both at one temperature");
}

}  // namespace

Outcome run(const Inputs& in) {
  const MassFraction found = read(in);
  const Strength strength = chemistry::strength_of(found);
  Outcome out;
  out.result(ethanol, strength);
  out.result(by_mass, found);
  out.result(density, chemistry::ethanol_water_density(found, chemistry::strength_temperature));
  out.result(grams, chemistry::ethanol_concentration(strength));
  out.change(lot::ethanol, strength);
  if (!in.has(share)) out.reagents.emplace_back(distilled);  // a share by mass may come from anywhere
  if (!in.figures_only()) say(in, out);
  return out;
}

}  // namespace vatwright::sugar::alcohol
