#include "plugins/lab/in_the_tank.hpp"

#include "plugins/lab/analysis.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

#include <cmath>

namespace vatwright::lab {
namespace {

Fraction molecular_at(const chemistry::Composition& dissolved, const chemistry::Medium& medium) {
  return chemistry::share(chemistry::Acid::sulfurous, 0, chemistry::equilibrium(dissolved, medium), medium);
}

}  // namespace

std::optional<InTheTank> in_the_tank(const Inputs& in, const chemistry::Composition& dissolved) {
  constexpr TemperatureInterval as_good_as = 2.0 * kelvin;
  const auto tank = in.get(lot::temperature);
  if (!tank || *tank < celsius(0) || *tank > celsius(50)) return std::nullopt;
  if (std::abs((*tank - chemistry::laboratory_temperature).value()) < as_good_as.value()) return std::nullopt;
  const Strength strength = ethanol(in);
  if (strength > chemistry::most_acid_strength) return std::nullopt;
  const chemistry::Medium bench(strength, chemistry::laboratory_temperature), there(strength, *tank);
  return InTheTank{*tank, chemistry::equilibrium(dissolved, there).ph,
                   molecular_at(dissolved, there) / molecular_at(dissolved, bench)};
}

std::optional<InTheTank> in_the_tank(const Inputs& in) {
  if (!in.has(lot::ph) || !in.has(lot::titratable_acidity)) return std::nullopt;
  try {
    const chemistry::Medium bench(ethanol(in), chemistry::laboratory_temperature);
    return in_the_tank(in, chemistry::infer(analysis(in), bench).composition);
  } catch (const InputError&) {
    return std::nullopt;
  }
}

void tell_ph_in_the_tank(const Inputs& in, const chemistry::Composition& dissolved, Outcome& out) {
  const auto tank = in_the_tank(in, dissolved);
  if (!tank) return;
  const chemistry::Medium bench(ethanol(in), chemistry::laboratory_temperature);
  out.note(fmt::format("in the tank, at {}, this is pH {}; a laboratory at {} reads pH {}",
                       print(tank->temperature, "°C", 0), print_number(tank->ph.value(), 2),
                       print(chemistry::laboratory_temperature, "°C", 0),
                       print_number(chemistry::equilibrium(dissolved, bench).ph.value(), 2)));
}

}  // namespace vatwright::lab
