#include "plugins/sugar/reading.hpp"

#include "plugins/chemistry/hydrometer.hpp"
#include "plugins/chemistry/refractometer.hpp"
#include "plugins/chemistry/sucrose.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

#include <cmath>

namespace vatwright::sugar {
namespace {

constexpr Temperature reference = chemistry::hydrometer_temperature;
constexpr TemperatureInterval of_no_account = 0.05 * kelvin;
constexpr TemperatureInterval worth_telling = 2.0 * kelvin;

bool further_than(TemperatureInterval interval, Temperature t) {
  return t > reference + interval || t < reference + -1.0 * interval;
}

// Below water there is alcohol in it.
void refuse_no_must(Density real, Temperature t) {
  const Density water = chemistry::sucrose_density(MassFraction{}, t);
  if (real > water) return;
  throw InputError(fmt::format("a density of {} at {} is that of no must: water has {}", print(real, "kg/m³", 2),
                               print(t, "°C", 1), print(water, "kg/m³", 2)),
                   "what ferments has alcohol in it: sugar.fermentation reckons with that; of a wine give the sugar by "
                   "analysis");
}

}  // namespace

bool has_alcohol(const Inputs& in) {
  constexpr auto little_alcohol = 0.2 * percent_vol;
  return in.get(lot::ethanol).value_or(Strength{}) > little_alcohol;
}

bool away_from_20(Temperature t) { return further_than(of_no_account, t); }

std::string_view raw_instrument(const Inputs& in) {
  const auto t = in.get(lot::temperature);
  const auto by = in.get(instrument);
  return t && away_from_20(*t) && by != corrected ? by : std::string_view();
}

std::optional<Temperature> unsaid_temperature(const Inputs& in) {
  const auto t = in.get(lot::temperature);
  return t && further_than(worth_telling, *t) && !in.has(instrument) ? t : std::nullopt;
}

void refuse_instrument(std::string_view reading, std::string_view by) {
  throw InputError(fmt::format("a {} gives no {}", by, reading), "look at 'instrument' and at the reading");
}

MassFraction from_solids(MassFraction reading, std::string_view by, Temperature t) {
  if (by == refractometer) return chemistry::corrected_refraction(reading, t);
  if (by == glass_hydrometer) return chemistry::brix_from_hydrometer(reading, t);
  if (by == density_meter) refuse_instrument("soluble solids", by);
  return reading;
}

MassFraction from_density(Density reading, std::string_view by, Temperature t) {
  if (by == refractometer) refuse_instrument("density", by);
  const Temperature read_at = by.empty() ? reference : t;
  const Density real = by == glass_hydrometer ? chemistry::density_by_hydrometer(reading, t) : reading;
  refuse_no_must(real, read_at);
  return chemistry::sucrose_mass_fraction(real, read_at);
}

void note_unsaid(Temperature t, std::string_view figure, std::string_view tool, std::optional<MassConcentration> error,
                 Outcome& out) {
  const std::string at = print(t, "°C", 1);
  const std::string size =
      error ? fmt::format("there is {} {} sugar", print(*error < MassConcentration{} ? -*error : *error, "g/L", 1),
                          *error < MassConcentration{} ? "less" : "more")
            : "bring a sample to 20 °C and read it again: no correction is known here for that";
  out.note(
      fmt::format("the lot is at {}, and its {} was taken as one that is for 20 °C. If a {} showed it at {}, {}. Say "
                  "'instrument: {}' and the step corrects it, or 'instrument: {}' when it was",
                  at, figure, tool, at, size, tool, corrected));
}

}  // namespace vatwright::sugar
