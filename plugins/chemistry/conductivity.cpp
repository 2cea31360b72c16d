#include "plugins/chemistry/conductivity.hpp"

#include "plugins/chemistry/known_range.hpp"
#include "units/error.hpp"
#include "units/print.hpp"

namespace vatwright::chemistry {

Conductivity potassium_chloride_conductivity(Temperature temperature) {
  constexpr TemperatureInterval a_hair = 1e-9 * kelvin;  // 15 °C is not a round number of kelvins
  const auto& rows = potassium_chloride;
  if (temperature < rows.front().temperature - a_hair || temperature > rows.back().temperature + a_hair)
    throw InputError("the table of potassium chloride goes from " +
                         from_to(rows.front().temperature, rows.back().temperature, "°C") + ", not to " +
                         print(temperature, "°C", 1),
                     "bring the solution to 20 °C and read it again");
  std::size_t low = 0;
  while (low + 2 < rows.size() && temperature > rows[low + 1].temperature) ++low;
  const auto& a = rows[low];
  const auto& b = rows[low + 1];
  const auto into = (temperature - a.temperature) / (b.temperature - a.temperature);
  return a.conductivity + into * (b.conductivity - a.conductivity);
}

}  // namespace vatwright::chemistry
