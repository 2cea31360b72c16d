#include "units/dimension.hpp"

#include <array>
#include <string_view>

namespace vatwright {
namespace {

struct Named {
  Dimension dimension;
  std::string_view name;
};

constexpr std::array named{
    Named{dimension_of<Fraction>(), "a plain number or a share (such as '60 %')"},
    Named{dimension_of<Volume>(), "a volume (such as '48 hL')"},
    Named{dimension_of<Mass>(), "a mass (such as '250 g')"},
    Named{dimension_of<Length>(), "a length (such as '10 mm')"},
    Named{dimension_of<Time>(), "a time (such as '6 h')"},
    Named{dimension_of<Temperature>(), "a temperature (such as '16 °C')"},
    Named{dimension_of<TemperatureInterval>(), "a difference of temperatures (such as '2 K')"},
    Named{dimension_of<Amount>(), "an amount (such as '5 mmol')"},
    Named{dimension_of<Equivalents>(), "an amount of acid (such as '5 meq')"},
    Named{dimension_of<MassConcentration>(), "a mass per volume (such as '30 mg/L')"},
    Named{dimension_of<AmountConcentration>(), "an amount per volume (such as '0.1 mol/L')"},
    Named{dimension_of<Acidity>(), "an acidity (such as '5.1 g/L as tartaric acid')"},
    Named{dimension_of<BufferCapacity>(), "a buffer capacity (such as '40 mmol/L/pH')"},
    Named{dimension_of<MolarMass>(), "a molar mass (such as '150.09 g/mol')"},
    Named{dimension_of<Ph>(), "a pH (such as '3.42')"},
    Named{dimension_of<Strength>(), "an alcoholic strength (such as '12.5 % vol')"},
    Named{dimension_of<MassFraction>(), "a share by mass (such as '22 °Brix' or '22 % mass')"},
    Named{dimension_of<Turbidity>(), "a turbidity (such as '2.1 NTU')"},
    Named{dimension_of<Absorbance>(), "an absorbance (such as '0.42 AU')"},
    Named{dimension_of<AbsorbancePerLength>(), "an absorbance per path (such as '0.42 AU/cm')"},
    Named{dimension_of<Conductivity>(), "a conductivity (such as '1850 µS/cm')"},
    Named{dimension_of<Voltage>(), "a voltage (such as '172.5 mV')"},
    Named{dimension_of<Pressure>(), "a pressure (such as '1.2 bar')"},
    Named{dimension_of<Energy>(), "an energy (such as '12 kWh')"},
    Named{dimension_of<Power>(), "a power (such as '1.5 kW')"},
    Named{dimension_of<decltype(Amount() / Time())>(), "an enzyme activity (such as '500 U')"},
};

constexpr std::array<std::string_view, Dimension::slots> base{"m",  "kg", "s",   "A",  "K",       "mol",
                                                              "pH", "eq", "NTU", "AU", "(% vol)", "(% mass)"};

}  // namespace

std::string describe(const Dimension& dimension) {
  for (const auto& n : named)
    if (n.dimension == dimension) return std::string(n.name);
  return "a quantity in " + base_units(dimension);
}

std::string base_units(const Dimension& dimension) {
  std::string text;
  for (std::size_t i = 0; i < base.size(); ++i) {
    if (dimension.power[i] == 0) continue;
    text.append(text.empty() ? "" : " ").append(base[i]);
    if (dimension.power[i] != 1) text.append("^").append(std::to_string(dimension.power[i]));
  }
  return text.empty() ? "1" : text;
}

}  // namespace vatwright
