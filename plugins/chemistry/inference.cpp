#include "plugins/chemistry/inference.hpp"

#include "plugins/chemistry/balance.hpp"
#include "units/error.hpp"
#include "units/print.hpp"

#include <boost/math/tools/toms748_solve.hpp>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <optional>
#include <string>
#include <utility>

namespace vatwright::chemistry {
namespace {

// Known acids that titrate to this much more than was measured, meq/L, are the whole of it.
constexpr double untitrated = 1e-7;
// As near to the titration as the ionic strength settles, meq/L.
constexpr double nought = 1e-9;

std::string text(Acidity acidity) { return print(acidity, "meq/L", 1); }
std::string text(Ph ph) { return "pH " + print_number(ph.value(), 2); }

template <class Rows, class Concentrations>
std::string named(const Rows& rows, const Concentrations& concentrations) {
  std::string list;
  for (std::size_t i = 0; i < rows.size(); ++i)
    if (concentrations[i].value() > 0) {
      const MassConcentration mass = concentrations[i] * rows[i].molar_mass;
      list += (list.empty() ? "" : ", ") + std::string(rows[i].name) + " " + print(mass, "g/L", 2);
    }
  return list;
}

void check(const Measured& m) {
  if (!(m.ph.value() >= 0 && m.endpoint.value() <= 14))
    throw InputError("a pH and an end point lie from 0 to 14, not at " + text(m.ph) + " and " + text(m.endpoint),
                     "look at the lab slip again");
  if (!(m.ph < m.endpoint))
    throw InputError("pH and end point cannot be together: a sample of " + text(m.ph) +
                         " has no titratable acidity to " + text(m.endpoint),
                     "measure the pH again, or look at the end point of the titration");
  if (!(m.titratable > Acidity{}))
    throw InputError("pH and titratable acidity cannot be together: at " + text(m.ph) + " it takes base to come to " +
                         text(m.endpoint) + ", not " + text(m.titratable),
                     "measure the titratable acidity again");
}

AcidSplit normalised(AcidSplit split) {
  double sum = 0;
  for (const double s : split) {
    if (!(s >= 0)) throw InputError("a share of the unmeasured acids is negative", "give shares from 0 % up");
    sum += s;
  }
  if (!(sum > 0)) throw InputError("nothing says what the unmeasured acids are taken to be", "give one acid a share");
  for (double& s : split) s /= sum;
  if (split[index(Acid::carbonic)] > 0)
    throw InputError("carbonic acid is not counted in the titratable acidity, and cannot be the unmeasured acid",
                     "take another acid for the rest");
  return split;
}

// base_to() without its check of the ionic strength, which the search may overstep on its way. `strength`: where the
// last turn of the search left that.
Acidity base_at(const Composition& composition, Ph ph, const Medium& medium, std::optional<double>& strength) {
  const kernel::Balance balance(composition, medium);
  const auto state = balance.held_at(ph.value(), strength);
  strength = state.ionic_strength;
  return equivalents(balance.base(state) * mole_per_litre);
}

class Unmeasured {
 public:
  Unmeasured(const Measured& measured, const Medium& medium)
      : measured_(measured), medium_(medium), split_(normalised(measured.unmeasured)) {}

  // So much unmeasured acid beyond a share of the usual ones, and the strong ions that bring it to the measured pH.
  Composition with(double of_usual, AmountConcentration acid) const {
    Composition c = measured_.known;
    for (std::size_t i = 0; i < acid_count; ++i) c.acids[i] += of_usual * measured_.usual[i] + split_[i] * acid;
    return at_measured_ph(c);
  }

  // A share of every known acid, and none unmeasured.
  Composition scaled(double share) const {
    Composition c = measured_.known;
    for (auto& acid : c.acids) acid *= share;
    return at_measured_ph(c);
  }

  // Titratable acidity above the measured one; rises with the acid.
  Acidity excess(const Composition& c) const {
    return base_at(degassed(c), measured_.endpoint, medium_, at_endpoint_) - measured_.titratable;
  }

 private:
  Composition at_measured_ph(Composition c) const {
    c.rest = {};
    c.rest = base_at(c, measured_.ph, medium_, at_ph_);
    return c;
  }

  const Measured& measured_;
  const Medium& medium_;
  AcidSplit split_;
  mutable std::optional<double> at_ph_, at_endpoint_;  // ionic strengths of the last turn: the next one's are near
};

Acidity most_above(const Measured& m) {
  return std::max<Acidity>(titration_reproducibility, acids_reproducibility * m.titratable);
}

[[noreturn]] void refuse_acids(const Measured& m, Acidity above) {
  const std::string known = named(acids, m.known.acids);
  const std::string titrate =
      " titrates to " + text(m.titratable + above) + ", more than the " + text(m.titratable) + " measured";
  if (known.empty())
    throw InputError("pH and titratable acidity cannot be together: water of " + text(m.ph) + titrate,
                     "measure the pH or the titratable acidity again");
  throw InputError(
      "acidity and acids cannot be together: at " + text(m.ph) + " what is given (" + known + ")" + titrate,
      "measure the titratable acidity or the acids again; up to " + text(most_above(m)) +
          " more the acids are scaled to the titration");
}

void check_ions(const Measured& m, const Composition& found) {
  const Acidity difference = found.strong_difference();
  if (difference < Acidity{} && found.rest < Acidity{})
    throw InputError("pH and acidity cannot be together: a titratable acidity of " + text(m.titratable) +
                         " has a pH above " + text(m.ph) + ", even with no potassium at all",
                     "measure the pH again, or give what strong acid there is");
  if (found.rest < -most_unmeasured_anions)
    throw InputError("pH, acidity and cations cannot be together: at " + text(m.ph) + " and " + text(m.titratable) +
                         " the acids carry " + text(difference) + " of cations, and there are " +
                         text(difference - found.rest) + " (" + named(ions, m.known.ions) + ")",
                     "measure the cations again, or give chloride and sulfuric acid");
}

// Where `function`, which rises, is nought between none and `most`. It is nearly straight, so that the secant arrives
// in a few turns; should it leave the bounds, the bracketed method arrives.
template <class Function>
double root(const Function& function, double most, double at_none, double at_most) {
  constexpr int most_secants = 8;
  double last = 0, at_last = at_none, x = most, at_x = at_most;
  for (int turn = 0; turn < most_secants; ++turn) {
    const double next = x - at_x * (x - last) / (at_x - at_last);
    if (!(next >= 0 && next <= most)) break;
    last = std::exchange(x, next);
    at_last = std::exchange(at_x, function(next));
    if (std::abs(at_x) <= nought) return x;
  }
  std::uintmax_t turns = 100;
  const auto found = boost::math::tools::toms748_solve(function, 0.0, most, at_none, at_most,
                                                       boost::math::tools::eps_tolerance<double>(46), turns);
  return (found.first + found.second) / 2;
}

Inferred balanced(const Measured& measured, Inferred found, const Medium& medium) {
  found.rest = found.composition.rest;
  check_ions(measured, found.composition);
  titratable_acidity(found.composition, measured.endpoint, medium);  // throws beyond the limits of validity
  return found;
}

// The known acids titrate to `above`, meq/L, more than was measured.
Inferred scaled_to_titration(const Measured& m, const Unmeasured& unmeasured, const Medium& medium, double above) {
  const auto excess = [&](double share) { return unmeasured.excess(unmeasured.scaled(share)).value(); };
  const double water = excess(0);
  if (water > 0 || (!m.vetted && above > most_above(m).value())) refuse_acids(m, coherent<Acidity>(above));
  const double share = root(excess, 1, water, above);
  return balanced(m, {unmeasured.scaled(share), {}, {}, {}, coherent<Fraction>(share)}, medium);
}

// With all of the usual acids it titrates to `all` more than was measured, without them to `none` less.
Inferred less_than_usual(const Measured& m, const Unmeasured& unmeasured, const Medium& medium, double none,
                         double all) {
  const auto excess = [&](double share) { return unmeasured.excess(unmeasured.with(share, {})).value(); };
  const double share = none < 0 ? root(excess, 1, none, all) : 0.0;
  return balanced(m, {unmeasured.with(share, {}), coherent<Fraction>(share), {}, {}}, medium);
}

}  // namespace

Inferred infer(const Measured& measured, const Medium& medium) {
  check(measured);
  const Unmeasured unmeasured(measured, medium);
  const double known = unmeasured.excess(unmeasured.with(0, {})).value();
  if (known > untitrated) return scaled_to_titration(measured, unmeasured, medium, known);
  const auto with = [&](double acid) { return unmeasured.with(1, coherent<AmountConcentration>(acid)); };
  const auto excess = [&](double acid) { return unmeasured.excess(with(acid)).value(); };
  const double none = excess(0);
  if (none > untitrated) return less_than_usual(measured, unmeasured, medium, known, none);
  // Each doubling is a try: one acid equivalent at most for each measured one, unless the acid is
  // half spent at this pH already.
  double most = measured.titratable.value(), high = excess(most);
  for (int tries = 0; high < 0 && tries < 8; ++tries) high = excess(most *= 2);
  if (high < 0)
    throw InputError("the acids that the unmeasured rest is taken to be titrate too little from " + text(measured.ph) +
                         " to " + text(measured.endpoint),
                     "measure the pH again");
  const double acid = none < 0 ? root(excess, most, none, high) : 0.0;
  return balanced(measured, {with(acid), coherent<Fraction>(1), coherent<AmountConcentration>(acid), {}}, medium);
}

}  // namespace vatwright::chemistry
