#include "plugins/chemistry/balance.hpp"

#include "units/error.hpp"

#include <boost/math/tools/toms748_solve.hpp>

#include <algorithm>
#include <cmath>
#include <cstdint>

namespace vatwright::chemistry::kernel {
namespace {

constexpr double least_ph = 0, most_ph = 14, wine_low = 2.5, wine_high = 4.5, usual_ph = 3.4, about = 0.05;
// Settled: far below what 1e-9 in pH asks for.
constexpr double ionic_tolerance = 1e-12;  // mol/L
constexpr double ph_tolerance = 1e-11;
constexpr int most_turns = 200, most_straight = 20, most_newton = 12;
constexpr double most_slope = 0.9, most_step = 1;
constexpr double least_start = 1e-3;  // mol/L: the activity's slope has no end at nought
constexpr double davies_edge = most_ionic_strength / mole_per_litre;

}  // namespace

void refuse_negative(const Amounts& amounts) {
  const auto refuse = [](double c, std::string_view name) {
    if (!(c >= 0))
      throw InputError("no concentration of " + std::string(name) + " can be negative", "look at the lab slip again");
  };
  for (const auto& acid : acids) refuse(amounts.acids[index(acid.acid)], acid.name);
  for (const auto& ion : ions) refuse(amounts.ions[index(ion.ion)], ion.name);
}

Balance::Balance(const Amounts& amounts, const Medium& medium)
    : a_(medium.davies_a()), water_product_(power_of_ten(-medium.water_pk())) {
  refuse_negative(amounts);
  if (const auto held = medium.held_ionic_strength()) held_ = *held / mole_per_litre;
  for (const auto& acid : acids) {
    const double c = amounts.acids[index(acid.acid)];
    if (c == 0) continue;
    parts_[size_++] = {c, products(medium.constants(acid.acid))};
  }
  const auto strong = [this](double c, double charge) {
    strong_difference_ += c * charge;
    (charge > 0 ? cations_ : strong_anions_) += c * std::abs(charge);
    strong_ionic_strength_ += 0.5 * c * charge * charge;
  };
  for (const auto& ion : ions) strong(amounts.ions[index(ion.ion)], ion.charge);
  strong(std::abs(amounts.rest), amounts.rest < 0 ? -1 : 1);
}

Balance::Sums Balance::sums(double proton_activity, double gamma) const {
  const Steps steps(proton_activity, gamma);
  Sums out;
  for (std::size_t i = 0; i < size_; ++i) {
    const Part& p = parts_[i];
    const Forms forms(p.constants, steps);
    const double z1 = forms.z1(), z2 = forms.z2(), z3 = forms.z3(), z4 = forms.z4();
    const double c = p.concentration;
    out.charge += c * z1;
    out.squares += c * z2;
    out.spread += c * (z2 - z1 * z1);
    out.cross += c * (z3 - z1 * z2);
    out.fourth += c * (z4 - z2 * z2);
  }
  return out;
}

// More ionic strength means more ions at a given pH, and the balancing ion never takes away more
// than the acids bring (z² ≥ z): the map rises and is bounded, so that repeating it always arrives.
// The first turns go faster, along its slope; should that fail, the plain ones arrive.
Balance::State Balance::settle(double ph, double start, bool base_closes) const {
  const double activity = power_of_ten(-ph);
  double strength = held_.value_or(start);
  for (int turn = 0; turn < most_turns; ++turn) {
    const double gamma = power_of_ten(-a_ * davies(strength));
    const Sums acid = sums(activity, gamma);
    const double protons = activity / gamma;
    const double hydroxide = water_product_ / (activity * gamma);
    const State state{ph, strength, acid.charge + hydroxide, protons};
    if (held_) return state;
    double image = strong_ionic_strength_ + 0.5 * (acid.squares + hydroxide + protons);
    double by_log_gamma = -0.5 * (acid.fourth + hydroxide + protons);
    if (base_closes) {
      const double closing = base(state);
      image += 0.5 * std::abs(closing);
      by_log_gamma -= std::copysign(0.5, closing) * (acid.cross + hydroxide - protons);
    }
    if (std::abs(image - strength) <= ionic_tolerance) return state;
    const double slope = by_log_gamma * -ln_10 * a_ * slope_of_davies(strength);
    const bool straight = turn < most_straight && slope > 0 && slope < most_slope;
    strength = straight ? strength + (image - strength) / (1 - slope) : image;
  }
  throw InputError("the ionic strength does not settle: the liquid is no must or wine",
                   "measure pH, titratable acidity and cations again");
}

std::optional<Balance::State> Balance::solve_at_once(double start) const {
  double ph = start, strength = held_.value_or(std::max(strong_ionic_strength_, least_start));
  for (int turn = 0; turn < most_newton; ++turn) {
    const double activity = power_of_ten(-ph), gamma = power_of_ten(-a_ * davies(strength));
    const Sums acid = sums(activity, gamma);
    const double protons = activity / gamma, hydroxide = water_product_ / (activity * gamma);
    const double negative = acid.charge + hydroxide + strong_anions_, positive = protons + cations_;
    // The logarithm of anions over cations is nearly straight in pH, their difference is not.
    const double imbalance = std::log(negative / positive);
    const double by_ph = ln_10 * ((acid.spread + hydroxide) / negative + protons / positive);
    double further = -imbalance / by_ph, stronger = 0;
    if (!held_) {
      const double log_gamma_by_strength = -ln_10 * a_ * slope_of_davies(strength);
      const double by_strength = (protons / positive - (acid.cross + hydroxide) / negative) * log_gamma_by_strength;
      const double off = strong_ionic_strength_ + 0.5 * (acid.squares + hydroxide + protons) - strength;
      const double off_by_ph = 0.5 * ln_10 * (acid.cross + hydroxide - protons);
      const double off_by_strength = -0.5 * (acid.fourth + hydroxide + protons) * log_gamma_by_strength - 1;
      const double determinant = by_ph * off_by_strength - by_strength * off_by_ph;
      further = (by_strength * off - imbalance * off_by_strength) / determinant;
      stronger = (imbalance * off_by_ph - by_ph * off) / determinant;
    }
    if (std::abs(further) <= ph_tolerance && std::abs(stronger) <= ionic_tolerance)
      return State{ph, strength, acid.charge + hydroxide, protons};
    ph += std::clamp(further, -most_step, most_step);
    strength = std::max(strength + stronger, strength / 4);
    // Past the edge of Davies' equation, out of the range of pH, and what is no number.
    if (!(ph > least_ph && ph < most_ph) || !(held_ || strength < davies_edge)) return std::nullopt;
  }
  return std::nullopt;
}

Balance::State Balance::solve(std::optional<double> near) const {
  if (const auto found = solve_at_once(near.value_or(usual_ph))) return *found;
  return solve_bracketed(near);
}

Balance::State Balance::solve_bracketed(std::optional<double> near) const {
  double strength = strong_ionic_strength_;  // each turn starts where the last one ended
  const auto imbalance = [&](double ph) {
    const State s = settle(ph, strength, false);
    strength = s.ionic_strength;
    return std::log((s.anions + strong_anions_) / (s.protons + cations_));
  };
  // Near where it is known to be, then musts and wines, then everything.
  double bottom = near ? *near - about : wine_low, top = near ? *near + about : wine_high;
  double low = imbalance(bottom), high = imbalance(top);
  if (near && (low > 0 || high < 0)) return solve_bracketed({});
  if (low > 0) {
    top = bottom, high = low;
    low = imbalance(bottom = least_ph);
  } else if (high < 0) {
    bottom = top, low = high;
    high = imbalance(top = most_ph);
  }
  if (low > 0 || high < 0)
    throw InputError("no pH from 0 to 14 balances the charges",
                     low > 0 ? "there are too many strong anions: measure chloride and sulfuric acid again"
                             : "there are too many strong cations: measure potassium and the other cations again");
  std::uintmax_t turns = 100;
  const auto root = boost::math::tools::toms748_solve(imbalance, bottom, top, low, high,
                                                      boost::math::tools::eps_tolerance<double>(36), turns);
  return settle((root.first + root.second) / 2, strength, false);
}

Balance::State Balance::held_at(double ph, std::optional<double> near) const {
  return settle(ph, near.value_or(strong_ionic_strength_), true);
}

}  // namespace vatwright::chemistry::kernel
