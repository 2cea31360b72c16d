// Molecular sulfur dioxide: the share of the free sulfur dioxide that is neither bisulfite nor
// sulfite, and the models of pK1 that give it.
#pragma once

#include "units/constants.hpp"

#include <array>
#include <cmath>

namespace vatwright::chemistry {

namespace kernel {

// 1 / (1 + 10^(pH - pK1)). The sulfite ion is left out: up to pH 4 it takes less than 0.1 % of
// the answer away.
inline double molecular_share(double ph, double pk1) { return 1 / (1 + std::pow(10.0, ph - pk1)); }

}  // namespace kernel

// Molecular sulfur dioxide in one of free sulfur dioxide; any pH and pK1 of wine.
inline Fraction molecular_share(Ph ph, Fraction pk1) {
  return coherent<Fraction>(kernel::molecular_share(ph.value(), pk1.value()));
}

// The trade's constant, whatever the strength and the temperature (common practice, no source). The
// usual targets of molecular sulfur dioxide were set with it.
inline constexpr Fraction trade_pk1 = coherent<Fraction>(1.81);

// Thermodynamic pK1 by strength and temperature: OIV-MA-AS323-04C, Table I.
struct OivPk1Grid {
  std::array<double, 4> strengths;     // % vol
  std::array<double, 5> temperatures;  // °C
  std::array<std::array<double, 5>, 4> pk1;
};
inline constexpr OivPk1Grid oiv_pk1_grid{{0, 5, 10, 15},
                                         {20, 25, 30, 35, 40},
                                         {{{1.798, 2.000, 2.219, 2.334, 2.493},
                                           {1.897, 2.098, 2.299, 2.397, 2.527},
                                           {1.997, 2.198, 2.394, 2.488, 2.606},
                                           {2.099, 2.301, 2.503, 2.607, 2.728}}}};

// Where `oiv_pk1` answers. Beyond the table's 15 % vol it runs on in a straight line.
inline constexpr Strength oiv_most_strength = 20.0 * percent_vol;
inline constexpr Strength oiv_table_strength = oiv_pk1_grid.strengths.back() * percent_vol;
inline constexpr Temperature oiv_least_temperature = celsius(oiv_pk1_grid.temperatures.front());
inline constexpr Temperature oiv_most_temperature = celsius(oiv_pk1_grid.temperatures.back());

// Mean ionic strength of wine (OIV-MA-AS323-04C), and a distance of closest approach. The second is
// derived: with it the term is what lies between Table I and the method's Table III (from memory).
inline constexpr AmountConcentration oiv_ionic_strength = 0.038 * mole_per_litre;
inline constexpr Length oiv_closest_approach = 0.5 * nanometre;

// Thermodynamic pK1, bilinear between the nodes of Table I. 0 to 20 % vol and 20 to 40 °C; throws
// InputError outside.
Fraction oiv_thermodynamic_pk1(Strength strength, Temperature temperature);

// pK1 in wine: the thermodynamic one less the Debye-Hückel term at the mean ionic strength. Same
// range.
Fraction oiv_pk1(Strength strength, Temperature temperature);

}  // namespace vatwright::chemistry
