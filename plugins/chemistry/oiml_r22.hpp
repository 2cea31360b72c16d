// The general formula of OIML R 22 for the density of mixtures of ethanol and water.
#pragma once

#include "plugins/chemistry/polynomial.hpp"

#include <array>

namespace vatwright::chemistry::kernel {

// Row i holds what multiplies (t - 20)^i: the first entry alone, the others with p, p² and so on.
// In the letters of the formula, row 0 is A1 to A12; row i begins with B_i and goes on with C_i,1,
// C_i,2, ... Density in kg/m³, p in kg/kg, t in °C (IPTS-68; ITS-90 moves the density by less than
// 0.01 kg/m³).
// Source: the same formula in Council Directive 76/766/EEC, annex, point 4: A1 to A5, B1 to B4, the
// lengths of the rows and the range were seen there. The other coefficients are from two
// transcriptions of the formula that agree in every digit; OIML R 22 itself was not opened.
inline constexpr std::array<std::array<double, 12>, 7> oiml_r22{{
    {998.20123, -192.9769495, 389.1238958, -1668.103923, 13522.15441, -88292.78388, 306287.4042, -613838.1234,
     747017.2998, -547846.1354, 223446.0334, -39032.85426},
    {-0.20618513, 0.1693443461530087, -10.46914743455169, 71.96353469546523, -704.7478054272792, 3924.090430035045,
     -12101.64659068747, 22486.46550400788, -26055.62982188164, 18523.73922069467, -7420.201433430137,
     1285.617841998974},
    {-0.0052682542, -0.0119301300505701, 0.2517399633803461, -2.170575700536993, 13.53034988843029, -50.29988758547014,
     109.635566657757, -142.2753946421155, 108.043594285623, -44.14153236817392, 7.442971530188783},
    {3.6130013e-05, -0.0006802995733503803, 0.01876837790289664, -0.2002561813734156, 1.02299296671922,
     -2.895696483903638, 4.810060584300675, -4.672147440794683, 2.458043105903461, -0.5411227621436812},
    {-3.8957702e-07, 4.075376675622027e-06, -8.76305857347111e-06, 6.515031360099368e-06, -1.51578483698721e-06},
    {7.169354e-09, -2.788074354782409e-08, 1.345612883493354e-08},
    {-9.9739231e-11},
}};

// The density at one temperature: coefficients of the powers of the mass fraction of ethanol.
// Valid from -20 to 40 °C.
constexpr std::array<double, 12> oiml_r22_isotherm(double t) {
  std::array<double, 12> power{};
  for (std::size_t i = oiml_r22.size(); i-- > 0;)
    for (std::size_t k = 0; k < power.size(); ++k) power[k] = power[k] * (t - 20) + oiml_r22[i][k];
  return power;
}

constexpr double ethanol_water_density(double p, double t) { return polynomial(oiml_r22_isotherm(t), p); }

}  // namespace vatwright::chemistry::kernel
