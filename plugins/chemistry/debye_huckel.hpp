// Activity of ions after Debye and Hückel, from the permittivity and the density of the solvent.
#pragma once

#include "units/dimensions.hpp"

namespace vatwright::chemistry {

class DebyeHuckel {
 public:
  // `permittivity` is relative; all three must be positive.
  DebyeHuckel(Fraction permittivity, Density density, Temperature temperature);

  // The solvent of a wine: 0 to 20 % mass of ethanol (24.5 % vol), 0 to 50 °C; throws InputError
  // outside. Its density is taken at 20 °C, which moves A by less than 0.5 %.
  static DebyeHuckel ethanol_water(Strength strength, Temperature temperature);

  // The two constants have half exponents, so that they are bare: A in (kg/mol)^½, B in
  // (kg/mol)^½ per ångström.
  double a() const { return a_; }
  double b() const { return b_; }

  // A √I / (1 + B å √I): minus the decadic logarithm of the activity coefficient of an ion of charge
  // one. `closest` is å, the distance of closest approach. Good to an ionic strength of 0.1 mol/L.
  // Ionic strength per litre stands for per kilogram of solvent.
  Fraction extended(AmountConcentration ionic_strength, Length closest) const;

 private:
  double a_, b_;
};

}  // namespace vatwright::chemistry
