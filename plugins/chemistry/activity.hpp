// The liquid that the acids are dissolved in: their constants there, and Davies' activity
// coefficients.
#pragma once

#include "plugins/chemistry/acids.hpp"
#include "plugins/chemistry/debye_huckel.hpp"

#include <boost/math/constants/constants.hpp>

#include <algorithm>
#include <cmath>
#include <optional>

namespace vatwright::chemistry {

// The strength of ethanol up to which the acids' constants are known here.
inline constexpr Strength most_acid_strength = 20.0 * percent_vol;

// The strength itself; throws InputError unless it lies from zero to `most_acid_strength`.
Strength within_acid_strength(Strength strength);

// Davies' equation is trusted up to here.
inline constexpr AmountConcentration most_ionic_strength = 0.5 * mole_per_litre;

// The constant at a temperature from 0 to 50 °C, as minus its decadic logarithm.
double pk_at(const Constant& constant, Temperature temperature);

namespace kernel {

inline constexpr double ln_10 = boost::math::constants::ln_ten<double>();
inline double power_of_ten(double x) { return std::exp(ln_10 * x); }

// √I / (1 + √I) − 0.3 I, I in mol/L: Davies, Ion Association (1962), from memory. Times −A z² it is
// the decadic logarithm of an activity coefficient. Beyond the trusted range it stays at its edge.
inline double davies(double ionic_strength) {
  const double i = std::min<double>(ionic_strength, most_ionic_strength / mole_per_litre);
  const double root = std::sqrt(i);
  return root / (1 + root) - 0.3 * i;
}

// How it rises with the ionic strength; infinite at nought.
inline double slope_of_davies(double ionic_strength) {
  if (ionic_strength > most_ionic_strength / mole_per_litre) return 0;
  const double root = std::sqrt(ionic_strength);
  return 0.5 / (root * (1 + root) * (1 + root)) - 0.3;
}

}  // namespace kernel

class Medium {
 public:
  // A wine or must up to `most_acid_strength`, 0 to 50 °C; throws InputError outside. Constants and activity
  // coefficients are those of that temperature.
  explicit Medium(Strength strength = {}, Temperature temperature = celsius(25), const EthanolSet& set = prenesti_2012);

  // The same with a solvent of one's own, and the constants of 25 °C. The set must outlive the medium.
  Medium(const DebyeHuckel& solvent, Strength strength, const EthanolSet& set, Temperature constants_at = celsius(25));

  // The same medium with the ionic strength held, for constants or tables that were made so.
  Medium at_ionic_strength(AmountConcentration held) const;

  // The same medium with another set of constants in water for an acid: those of a table that was made with them.
  Medium with(Acid acid, const std::array<double, most_protons>& pk_in_water) const;

  // Thermodynamic pK in this medium; `step` from 0 to protons − 1.
  Fraction pk(Acid acid, std::size_t step) const { return coherent<Fraction>(pk_[index(acid)][step]); }

  // The constant in concentrations of the acid and its base, but activity of the proton, at an ionic
  // strength up to 0.5 mol/L.
  Fraction mixed_pk(Acid acid, std::size_t step, AmountConcentration ionic_strength) const;

  // Activity coefficient (concentrations in mol/L) of an ion of so many charges, of either sign.
  Fraction activity_coefficient(int charge, AmountConcentration ionic_strength) const;

  double water_pk() const { return water_pk_; }
  double davies_a() const { return a_; }  // (kg/mol)^½, used as (L/mol)^½
  const EthanolSet& ethanol_set() const { return *set_; }

  // For the balance: constants of the acid as they stand in this medium, mol/L.
  const std::array<double, most_protons>& constants(Acid acid) const { return constants_[index(acid)]; }
  std::optional<AmountConcentration> held_ionic_strength() const { return held_; }

 private:
  void set(Acid acid, const std::array<double, most_protons>& pk_in_water);

  std::array<std::array<double, most_protons>, acid_count> pk_{}, constants_{};
  double a_, water_pk_, percent_;
  const EthanolSet* set_;
  std::optional<AmountConcentration> held_;
};

}  // namespace vatwright::chemistry
