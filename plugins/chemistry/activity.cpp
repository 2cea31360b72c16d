#include "plugins/chemistry/activity.hpp"

#include "plugins/chemistry/constants.hpp"
#include "units/error.hpp"
#include "units/print.hpp"

#include <numbers>

namespace vatwright::chemistry {

Strength within_acid_strength(Strength strength) {
  if (strength >= Strength{} && strength <= most_acid_strength) return strength;
  throw InputError("the constants of the acids are known here from 0 to " + print(most_acid_strength, "% vol", 0) +
                       ", not at " + print(strength, "% vol", 1),
                   "reckon before spirit is added, and measure pH and titratable acidity afterwards");
}

// CRC Handbook of Chemistry and Physics, ionisation constants by temperature.
double pk_at(const Constant& constant, Temperature temperature) {
  constexpr double standard = celsius(25).value();
  const double t = temperature.value();
  const double moved = 1000 * constant.enthalpy * (1 / t - 1 / standard) -
                       constant.heat_capacity * (standard / t - 1 + std::log(t / standard));
  return constant.pk + moved / (kernel::gas_constant * std::numbers::ln10);
}

Medium::Medium(Strength strength, Temperature temperature, const EthanolSet& set)
    : Medium(DebyeHuckel::ethanol_water(within_acid_strength(strength), temperature), strength, set, temperature) {}

Medium::Medium(const DebyeHuckel& solvent, Strength strength, const EthanolSet& set, Temperature constants_at)
    : a_(solvent.a()),
      water_pk_(pk_at(water_constant, constants_at)),
      percent_(within_acid_strength(strength) / percent_vol),
      set_(&set) {
  for (const auto& acid : acids) {
    std::array<double, most_protons> in_water{};
    for (std::size_t step = 0; step < acid.protons; ++step) in_water[step] = pk_at(acid.constants[step], constants_at);
    this->set(acid.acid, in_water);
  }
}

void Medium::set(Acid acid, const std::array<double, most_protons>& pk_in_water) {
  const std::size_t i = index(acid);
  for (std::size_t step = 0; step < row(acid).protons; ++step) {
    pk_[i][step] = pk_in_water[step] + percent_ * set_->per_percent_vol[i][step];
    constants_[i][step] = std::pow(10.0, -pk_[i][step]);
  }
}

Medium Medium::with(Acid acid, const std::array<double, most_protons>& pk_in_water) const {
  Medium out = *this;
  out.set(acid, pk_in_water);
  return out;
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
