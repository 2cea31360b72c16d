#include "plugins/chemistry/activity.hpp"

namespace vatwright::chemistry {

Medium::Medium(Strength strength, Temperature temperature, const EthanolSet& set)
    : Medium(DebyeHuckel::ethanol_water(strength, temperature), strength, set) {}

Medium::Medium(const DebyeHuckel& solvent, Strength strength, const EthanolSet& set) : a_(solvent.a()), set_(set.name) {
  const double q = strength / percent_vol;
  for (std::size_t i = 0; i < acid_count; ++i)
    for (std::size_t step = 0; step < acids[i].protons; ++step) {
      pk_[i][step] = acids[i].pk[step] + q * set.per_percent_vol[i][step];
      constants_[i][step] = std::pow(10.0, -pk_[i][step]);
    }
}

Medium Medium::at_ionic_strength(AmountConcentration held) const {
  Medium out = *this;
  out.held_ = held;
  return out;
}

Fraction Medium::mixed_pk(Acid acid, std::size_t step, AmountConcentration ionic_strength) const {
  // From charge −s to −(s+1): (s+1)² − s² unit charges' worth of activity coefficient.
  const double squares = 2 * static_cast<double>(step) + 1;
  return coherent<Fraction>(pk(acid, step).value() - squares * a_ * kernel::davies(ionic_strength / mole_per_litre));
}

Fraction Medium::activity_coefficient(int charge, AmountConcentration ionic_strength) const {
  return coherent<Fraction>(std::pow(10.0, -a_ * charge * charge * kernel::davies(ionic_strength / mole_per_litre)));
}

}  // namespace vatwright::chemistry
