// Readings of conductivity that tell of potassium bitartrate, and the cell that takes them.
#pragma once

#include "units/constants.hpp"

#include <array>

namespace vatwright::chemistry {

// Potassium chloride, 0.02 mol/L, by temperature: Handbook of Enology, vol. 2, table 1.12. Its row
// of 25 °C is left out: conductivity and resistivity do not agree there (a misprint).
struct ChlorideRow {
  Temperature temperature;
  Conductivity conductivity;
};
inline constexpr auto microsiemens_per_centimetre = 1e-4 * siemens_per_metre;
inline constexpr std::array<ChlorideRow, 10> potassium_chloride{{{celsius(15), 2242.0 * microsiemens_per_centimetre},
                                                                 {celsius(16), 2293.0 * microsiemens_per_centimetre},
                                                                 {celsius(17), 2347.0 * microsiemens_per_centimetre},
                                                                 {celsius(18), 2398.0 * microsiemens_per_centimetre},
                                                                 {celsius(19), 2451.0 * microsiemens_per_centimetre},
                                                                 {celsius(20), 2500.0 * microsiemens_per_centimetre},
                                                                 {celsius(21), 2551.0 * microsiemens_per_centimetre},
                                                                 {celsius(22), 2604.0 * microsiemens_per_centimetre},
                                                                 {celsius(23), 2659.0 * microsiemens_per_centimetre},
                                                                 {celsius(24), 2710.0 * microsiemens_per_centimetre}}};

// Linear between the rows; throws InputError outside 15 to 24 °C.
Conductivity potassium_chloride_conductivity(Temperature temperature);

// Saturation temperature from the rise of conductivity when 4 g/L of potassium bitartrate are stirred
// in at `read_at`. The formula is a straight line down from `at_no_rise`, its upper limit: a wine whose
// conductivity does not rise is saturated there or above.
struct SaturationFormula {
  Temperature read_at;
  Temperature at_no_rise;
  Conductivity per_kelvin;  // rise by which the saturation temperature is one kelvin lower
};
// Würdig et al. 1982, white wine, and Maujean et al., pink and red wine: seen in course notes, where the
// minus sign of the second was lost in print and is read by analogy with the first.
inline constexpr SaturationFormula wuerdig{celsius(20), celsius(20.0), 29.30 * microsiemens_per_centimetre};
inline constexpr SaturationFormula maujean{celsius(30), celsius(29.90), 58.30 * microsiemens_per_centimetre};

// `rise` is not negative.
constexpr Temperature saturation_temperature(Conductivity rise, const SaturationFormula& formula) {
  return formula.at_no_rise - rise / formula.per_kelvin * kelvin;
}

}  // namespace vatwright::chemistry
