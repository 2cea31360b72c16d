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

namespace {

// What is the same for all constants of one temperature.
class Moved {
 public:
  explicit Moved(Temperature temperature) {
    constexpr double standard = celsius(25).value(), per_decade = kernel::gas_constant * std::numbers::ln10;
    const double t = temperature.value();
    by_enthalpy_ = 1000 * (1 / t - 1 / standard) / per_decade;
    by_heat_capacity_ = (standard / t - 1 + std::log(t / standard)) / per_decade;
  }
  // CRC Handbook of Chemistry and Physics, ionisation constants by temperature.
  double pk(const Constant& constant) const {
    return constant.pk + constant.enthalpy * by_enthalpy_ - constant.heat_capacity * by_heat_capacity_;
  }

 private:
  double by_enthalpy_, by_heat_capacity_;
};

}  // namespace

double pk_at(const Constant& constant, Temperature temperature) { return Moved(temperature).pk(constant); }

Medium::Medium(Strength strength, Temperature temperature, const EthanolSet& set)
    : Medium(DebyeHuckel::ethanol_water(within_acid_strength(strength), temperature), strength, set, temperature) {}

Medium::Medium(const DebyeHuckel& solvent, Strength strength, const EthanolSet& set, Temperature constants_at)
    : a_(solvent.a()),
      water_pk_(pk_at(water_constant, constants_at)),
      percent_(within_acid_strength(strength) / percent_vol),
      set_(&set) {
  const Moved moved(constants_at);
  for (const auto& acid : acids) {
    std::array<double, most_protons> in_water{};
    for (std::size_t step = 0; step < acid.protons; ++step) in_water[step] = moved.pk(acid.constants[step]);
    this->set(acid.acid, in_water);
  }
}

void Medium::set(Acid acid, const std::array<double, most_protons>& pk_in_water) {
  const std::size_t i = index(acid);
  for (std::size_t step = 0; step < row(acid).protons; ++step) {
    pk_[i][step] = pk_in_water[step] + percent_ * set_->per_percent_vol[i][step];
    constants_[i][step] = kernel::power_of_ten(-pk_[i][step]);
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
  return coherent<Fraction>(
      kernel::power_of_ten(-a_ * charge * charge * kernel::davies(ionic_strength / mole_per_litre)));
}

}  // namespace vatwright::chemistry
