// The one table of unit symbols, shared by the parser, the printer, `vatwright units` and the tests.
#pragma once

#include "units/dimension.hpp"

#include <span>
#include <string_view>

namespace vatwright {

// How a number on a scale becomes a coherent value. All but the last three are straight lines;
// those are hydrometer scales, functions of the density relative to water at 20 °C.
enum class Scale : std::uint8_t { linear, relative_density, oechsle, baume };

// Density of pure water at 20 °C and one atmosphere, kg/m³.
// Kell, J. Chem. Eng. Data 20 (1975) 97, evaluated at 20 °C (coefficients seen).
inline constexpr double water_density_20 = 998.203;
// Modulus of the Baumé scale for liquids heavier than water: d = 145 / (145 - °Bé).
// The value in use in the United States (NIST/NBS; also the one of GNU units).
inline constexpr double baume_modulus = 145.0;

struct Unit {
  double factor = 1;  // coherent value of one
  double zero = 0;    // coherent value of zero (temperature scales)
  Scale scale = Scale::linear;
  Dimension dimension{};
  std::string_view counted{};  // "nitrogen", or empty

  double coherent(double number) const;  // number on this scale -> coherent value
  double number(double coherent) const;  // coherent value -> number on this scale
  double slope(double number) const;     // d(coherent)/d(number), for uncertainties
  // A coherent uncertainty of a coherent value, on this scale.
  double spread(double uncertainty, double coherent) const;
};

struct Symbol {
  std::string_view text;
  std::string_view help;
  Unit unit;
  std::string_view prefixes{};  // SI prefixes that may stand before it, such as "mcdhµ"
  std::string_view gnu{};       // the same unit in the words of GNU units, for the test; "-": has none there
  bool bare = false;            // a number without a unit is understood where this unit is due
};

// Sorted by `text`.
std::span<const Symbol> symbols();

struct Prefix {
  std::string_view text;
  double factor;
};
std::span<const Prefix> prefixes();

// A symbol with or without a prefix; `factor` is the prefix's. nullptr when there is none.
const Symbol* find_symbol(std::string_view text, double& factor);

}  // namespace vatwright
