// Density of sucrose solutions, and the Brix hydrometer that reads it.
//
// ICUMSA specification and standard SPS-4 with Kell's density of water; 0 to 95 % mass, 0 to 60 °C,
// InputError outside. (The formula's own range is 0 to 70 % mass and 0 to 80 °C, from memory.) At
// 20 °C it lies within 0.1 kg/m³ of Table 114 of NBS Circular 440 up to 50 % mass, 0.35 up to 70 and
// 0.6 up to 95.
#pragma once

#include "units/constants.hpp"

namespace vatwright::chemistry {

inline constexpr MassFraction most_sucrose = 95.0 * percent_mass;
inline constexpr Temperature sucrose_least_temperature = celsius(0);
inline constexpr Temperature sucrose_most_temperature = celsius(60);

namespace kernel {

// kg/m³ at a mass fraction and a temperature in °C; and back. A density outside the range of the
// scale gives its bound; the scale goes on to -5 % mass, as that of a hydrometer does.
double sucrose_density(double w, double t);
double sucrose_mass_fraction(double density, double t);

}  // namespace kernel

Density sucrose_density(MassFraction sucrose, Temperature temperature);

// The one mass fraction that has this density at this temperature.
MassFraction sucrose_mass_fraction(Density density, Temperature temperature);

// Grams of sucrose in a litre at 20 °C.
MassConcentration sucrose_concentration(MassFraction sucrose);

// Mass fraction from the reading of a glass Brix hydrometer graduated at 20 °C and read at
// `temperature`. The scale goes on below that of water: from -5 to 70 % mass.
MassFraction brix_from_hydrometer(MassFraction reading, Temperature temperature);

}  // namespace vatwright::chemistry
