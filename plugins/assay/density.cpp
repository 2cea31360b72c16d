#include "plugins/assay/density.hpp"

#include "plugins/chemistry/water.hpp"
#include "units/print.hpp"

namespace vatwright::assay::density {
namespace {

template <class Quantity>
Quantity due(const Inputs& in, const Key<Quantity>& key, const char* beside) {
  if (const auto value = in.get(key)) return *value;
  throw InputError("'" + std::string(key.name) + "' is missing beside '" + beside + "'",
                   std::string(key.help) + ": write it in the step");
}

// Both liquids are lifted by the air that they push away.
Density by_pycnometer(const Inputs& in, Density water) {
  const Mass bare = due(in, empty, "with wine"), water_held = due(in, with_water, "with wine") - bare;
  const Mass held = in[with_wine] - bare;
  if (!(water_held > Mass{}) || !(held > Mass{}))
    throw InputError("the empty pycnometer weighs more than the full one", "look whether the masses are swapped");
  return in[air] + (water - in[air]) * (held / water_held);
}

// Density runs straight with the square of the period, through air and water.
Density by_period(const Inputs& in, Density water) {
  const auto square = [](Time t) { return t * t; };
  const auto of_air = square(due(in, period_in_air, "period")), of_water = square(due(in, period_in_water, "period"));
  if (!(of_water > of_air))
    throw InputError("the cell swings slower in air than in water", "look whether the periods are swapped");
  return in[air] + (water - in[air]) * ((square(in[period]) - of_air) / (of_water - of_air));
}

}  // namespace

Outcome run(const Inputs& in) {
  const Density water = coherent<Density>(chemistry::kernel::water_density(degrees_celsius(in[at])));
  const Density is = in.has(with_wine) ? by_pycnometer(in, water) : by_period(in, water);
  const auto& of_lot = *lot::density.valid;
  if (is < of_lot.low * kilogram_per_cubic_metre || is > of_lot.high * kilogram_per_cubic_metre)
    throw InputError("the density comes to " + print(is, "g/mL", 4) + ", which no must or wine has",
                     "look at the readings; a cell must be dry for air and free of bubbles");
  Outcome out;
  out.result(found, is);
  out.result(relative, Fraction(is / water));
  constexpr double off_20 = 0.5;  // K, within which a density counts as that at 20 °C
  const bool at_20 = std::abs(degrees_celsius(in[at]) - 20) <= off_20;
  if (at_20)
    out.change(lot::density, is);
  else
    out.note("a lot's density is that at 20 °C: this one, at " + print(in[at], "°C", 1) + ", does not go into the lot");
  if (in.figures_only()) return out;
  out.note("free the sample of carbon dioxide, and bring water and sample to one temperature");
  out.note("for the finest work take 0.0006 g/mL off for each g/L of total sulfur dioxide (OIV-MA-AS2-01A)");
  return out;
}

}  // namespace vatwright::assay::density
