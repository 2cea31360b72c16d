#include "plugins/chemistry/tartrate.hpp"

#include "plugins/chemistry/bracketed.hpp"
#include "plugins/chemistry/known_range.hpp"
#include "units/error.hpp"
#include "units/print.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

namespace vatwright::chemistry {
namespace {

constexpr Temperature anchor = celsius(25), ethanol_anchor = celsius(20);
constexpr Strength ethanol_anchor_strength = 10.0 * percent_vol;

double per_kelvin(Temperature t) { return 1 / t.value() - 1 / anchor.value(); }

constexpr SolubilityProduct product_of(double square_mole_per_litre) {
  return square_mole_per_litre * (mole_per_litre * mole_per_litre);
}

// Concentration of the tartrate ion of so many charges.
AmountConcentration tartrate_ion(const Composition& c, std::size_t charge, const Equilibrium& at, const Medium& m) {
  return c[Acid::tartaric] * share(Acid::tartaric, charge, at, m);
}

// Activities, concentrations in mol/L: a cation and a tartrate ion of as many charges.
SolubilityProduct ion_product(const Composition& c, Ion cation, const Equilibrium& at, const Medium& m) {
  const int charge = row(cation).charge;
  const Fraction gamma = m.activity_coefficient(charge, at.ionic_strength);
  return c[cation] * gamma * (tartrate_ion(c, static_cast<std::size_t>(charge), at, m) * gamma);
}

// The salt dissolved alone, as much acid as cation.
Composition salt(Ion cation, AmountConcentration amount) {
  Composition c;
  c[cation] = c[Acid::tartaric] = amount;
  return c;
}

double log_product(Ion cation, AmountConcentration saturated, const Medium& medium) {
  const Composition c = salt(cation, saturated);
  return std::log(ion_product(c, cation, equilibrium(c, medium), medium) / product_of(1));
}

// Kelvins by which the logarithm of the solubility falls with 1/T.
double solubility_slope(Course course) {
  double over = 0, under = 0;  // least squares through the anchor
  for (const auto& cited : cited_solubilities) {
    if (course == Course::ten_degrees && cited.temperature != celsius(10)) continue;
    const double x = per_kelvin(cited.temperature);
    over -= x * std::log(cited.solubility / (saturated_water_25 * bitartrate_molar_mass));
    under += x * x;
  }
  return over / under;
}

// Logarithm of the product: at the anchor in water, its fall with 1/T and its fall with ethanol.
struct Line {
  double at_anchor, slope, per_strength;

  double at(Strength q, Temperature t) const {
    return at_anchor - slope * per_kelvin(t) - per_strength * (q / percent_vol);
  }
};

// The activities of saturated solutions turn the solubilities into products.
Line line_of(Course course) {
  constexpr Temperature cold = celsius(0);
  Line line{log_product(Ion::potassium, saturated_water_25, Medium()), 0, 0};
  const AmountConcentration saturated_cold = bitartrate_solubility_in_water(cold, course) / bitartrate_molar_mass;
  const double at_cold = log_product(Ion::potassium, saturated_cold, Medium({}, cold));
  line.slope = (line.at_anchor - at_cold) / per_kelvin(cold);
  const Medium ethanol(ethanol_anchor_strength, ethanol_anchor);
  const double with_ethanol = log_product(Ion::potassium, saturated_10_percent_20 / bitartrate_molar_mass, ethanol);
  line.per_strength =
      (line.at(Strength{}, ethanol_anchor) - with_ethanol) / static_cast<double>(ethanol_anchor_strength / percent_vol);
  return line;
}

const Line& line(Course course) {
  static const Line lines[] = {line_of(Course::all_values), line_of(Course::ten_degrees)};
  return lines[static_cast<std::size_t>(course)];
}

// Of liquids that differ little: each pH is looked for near the last one.
class Saturations {
 public:
  Fraction operator()(const Composition& c, const Medium& medium, SolubilityProduct product) {
    const Equilibrium at = near_ ? equilibrium(c, medium, *near_) : equilibrium(c, medium);
    near_ = at.ph;
    return ion_product(c, Ion::potassium, at, medium) / product;
  }

 private:
  std::optional<Ph> near_;
};

Composition without(Composition c, AmountConcentration bitartrate) {
  const auto left = [&](AmountConcentration there) { return std::max(there - bitartrate, AmountConcentration{}); };
  c[Ion::potassium] = left(c[Ion::potassium]);
  c[Acid::tartaric] = left(c[Acid::tartaric]);
  return c;
}

}  // namespace

MassConcentration bitartrate_solubility_in_water(Temperature temperature, Course course) {
  return saturated_water_25 * bitartrate_molar_mass * std::exp(-solubility_slope(course) * per_kelvin(temperature));
}

Bitartrate::Bitartrate(Strength strength, Course course) : strength_(within_acid_strength(strength)), course_(course) {}

Medium Bitartrate::medium(Temperature temperature) const {
  return Medium(strength_, std::clamp(temperature, celsius(0), celsius(50)));
}

SolubilityProduct Bitartrate::product(Temperature temperature) const {
  constexpr TemperatureInterval hair = 1e-9 * kelvin;  // the ends come back from 1/T
  if (temperature < least_saturation_temperature - hair || temperature > most_saturation_temperature + hair)
    throw InputError("the solubility of bitartrate is carried from " +
                         from_to(least_saturation_temperature, most_saturation_temperature, "°C") + ", not to " +
                         print(temperature, "°C", 1),
                     "give a temperature in between");
  return product_of(std::exp(line(course_).at(strength_, temperature)));
}

Fraction Bitartrate::saturation(const Composition& composition, Temperature temperature) const {
  return Saturations()(composition, medium(temperature), product(temperature));
}

Temperature Bitartrate::saturation_temperature(const Composition& composition) const {
  // Nearly a straight line over 1/T, whose root is good to 1e-7 K.
  Saturations saturations;
  const auto over = [&](double reciprocal) {
    const auto t = coherent<Temperature>(1 / reciprocal);
    return std::log(saturations(composition, medium(t), product(t)).value());
  };
  const double warm = 1 / most_saturation_temperature.value(), cold = 1 / least_saturation_temperature.value();
  // The end with the smaller product also stands for a liquid without potassium or tartaric acid.
  const double at_cold = over(cold);
  if (at_cold <= 0) return least_saturation_temperature;
  const double slope = line(course_).slope;  // nearly all of it
  const double guess = std::max(cold - at_cold / slope, warm);
  return coherent<Temperature>(1 /
                               kernel::nearly_straight_root(over, warm, cold, {cold, at_cold}, {guess, over(guess)}));
}

Deposit Bitartrate::deposit(const Composition& composition, Temperature temperature) const {
  const Medium cold = medium(temperature);
  const SolubilityProduct allowed = product(temperature);
  // The root of the saturation is nearly straight in what was removed.
  Saturations saturations;
  const auto excess = [&](double removed) {
    return std::sqrt(saturations(without(composition, removed * mole_per_litre), cold, allowed).value()) - 1;
  };
  const double at_none = excess(0);
  // A liquid that stands at saturation, but for the arithmetic, lets nothing fall.
  if (at_none <= 1e-9) return {{}, composition, equilibrium(composition, cold)};
  const double most = std::min(composition[Ion::potassium], composition[Acid::tartaric]) / mole_per_litre;
  // With all of it gone there is no product.
  const auto removed = kernel::nearly_straight_root(excess, 0, most, {most, -1}, {0, at_none}) * mole_per_litre;
  Deposit out{removed, without(composition, removed), {}};
  out.at = equilibrium(out.left, cold);
  return out;
}

SolubilityProduct concentration_product(const Composition& composition, const Equilibrium& at, const Medium& medium) {
  return composition[Ion::potassium] * tartrate_ion(composition, 1, at, medium);
}

Ph tartrate_pivot(const Equilibrium& at, const Medium& medium) {
  const auto pk = [&](std::size_t step) { return medium.mixed_pk(Acid::tartaric, step, at.ionic_strength).value(); };
  return (pk(0) + pk(1)) / 2 * ph_unit;
}

AmountConcentration deposit_at_held_ph(AmountConcentration potassium, AmountConcentration tartaric,
                                       Fraction bitartrate_share, SolubilityProduct left) {
  const SolubilityProduct both = left / bitartrate_share;
  if (potassium * tartaric <= both) return {};
  const auto sum = potassium + tartaric;
  // The smaller root, in the form that does not cancel.
  const double root = std::sqrt((sum * sum - 4.0 * (potassium * tartaric - both)).value());
  return coherent<AmountConcentration>(2 * (potassium * tartaric - both).value() / (sum.value() + root));
}

Fraction calcium_tartrate_saturation(const Composition& composition, const Equilibrium& at, const Medium& medium) {
  static const double saturated =
      log_product(Ion::calcium, calcium_tartrate_solubility / calcium_tartrate_molar_mass, Medium({}, celsius(20)));
  return ion_product(composition, Ion::calcium, at, medium) / product_of(std::exp(saturated));
}

}  // namespace vatwright::chemistry
