#include "plugins/chemistry/activity.hpp"

#include "units/error.hpp"
#include "units/print.hpp"

namespace vatwright::chemistry {

Strength within_acid_strength(Strength strength) {
  if (strength >= Strength{} && strength <= most_acid_strength) return strength;
  throw InputError("the constants of the acids are known here from 0 to " + print(most_acid_strength, "% vol", 0) +
                       ", not at " + print(strength, "% vol", 1),
                   "reckon before spirit is added, and measure pH and titratable acidity afterwards");
}

Medium::Medium(Strength strength, Temperature temperature, const EthanolSet& set)
    : Medium(DebyeHuckel::ethanol_water(within_acid_strength(strength), temperature), strength, set) {}

Medium::Medium(const DebyeHuckel& solvent, Strength strength, const EthanolSet& set) : a_(solvent.a()), set_(&set) {
  const double q = within_acid_strength(strength) / percent_vol;
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
