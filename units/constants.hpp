// Named units for C++ code and for the rows of the catalogue: `30.0 * milligram_per_litre`.
// Each is a quantity, so that its factor and its dimension come from one expression.
// Factors: SI Brochure (BIPM, 9th edition); US and imperial units: NIST Handbook 44, appendix C.
#pragma once

#include "units/dimensions.hpp"

namespace vatwright {

template <class Quantity>
constexpr Quantity coherent(double value) {
  return Quantity::from_value(value);
}

inline constexpr auto metre = coherent<Length>(1.0);
inline constexpr auto nanometre = coherent<Length>(1e-9);
inline constexpr auto kilogram = coherent<Mass>(1.0);
inline constexpr auto gram = coherent<Mass>(1e-3);
inline constexpr auto tonne = coherent<Mass>(1e3);
inline constexpr auto pound = coherent<Mass>(0.45359237);
inline constexpr auto second = coherent<Time>(1.0);
inline constexpr auto hour = coherent<Time>(3600.0);
inline constexpr auto mole = coherent<Amount>(1.0);
inline constexpr auto equivalent = coherent<Equivalents>(1.0);
inline constexpr auto litre = coherent<Volume>(1e-3);
inline constexpr auto millilitre = coherent<Volume>(1e-6);
inline constexpr auto hectolitre = coherent<Volume>(0.1);
inline constexpr auto us_gallon = coherent<Volume>(3.785411784e-3);
inline constexpr auto imperial_gallon = coherent<Volume>(4.54609e-3);
inline constexpr auto gram_per_litre = coherent<MassConcentration>(1.0);
inline constexpr auto milligram_per_litre = coherent<MassConcentration>(1e-3);
inline constexpr auto kilogram_per_cubic_metre = coherent<Density>(1.0);
inline constexpr auto mole_per_litre = coherent<AmountConcentration>(1e3);
inline constexpr auto millimole_per_litre = coherent<AmountConcentration>(1.0);
inline constexpr auto milliequivalent_per_litre = coherent<Acidity>(1.0);
inline constexpr auto gram_per_mole = coherent<MolarMass>(1e-3);
inline constexpr auto ph_unit = coherent<Ph>(1.0);
inline constexpr auto percent_vol = coherent<Strength>(0.01);
inline constexpr auto percent_mass = coherent<MassFraction>(0.01);
inline constexpr auto percent = coherent<Fraction>(0.01);
inline constexpr auto kelvin = coherent<TemperatureInterval>(1.0);
inline constexpr auto siemens_per_metre = coherent<Conductivity>(1.0);
inline constexpr auto volt = coherent<Voltage>(1.0);
inline constexpr auto millivolt = coherent<Voltage>(1e-3);
inline constexpr auto pascal = coherent<Pressure>(1.0);
inline constexpr auto joule = coherent<Energy>(1.0);
inline constexpr auto kilojoule = coherent<Energy>(1e3);
inline constexpr auto kilocalorie = coherent<Energy>(4184.0);  // the thermochemical one
inline constexpr auto watt = coherent<Power>(1.0);

inline constexpr double ice_point = 273.15;  // K at 0 °C, exact (SI Brochure, section 2.3.1)

// A temperature from its number of degrees Celsius, and back.
constexpr Temperature celsius(double degrees) { return coherent<Temperature>(degrees + ice_point); }
constexpr double degrees_celsius(Temperature t) { return t.value() - ice_point; }

}  // namespace vatwright
