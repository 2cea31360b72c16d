#include "plugins/chemistry/inference.hpp"

#include "plugins/chemistry/titrated_line.hpp"
#include "units/error.hpp"
#include "units/print.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <string>

namespace vatwright::chemistry {
namespace {

// Less than nothing by no more than the arithmetic: mmol/L, or a share.
constexpr double hair = 1e-7;

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

// From what is known, along a mixture of acids, to where pH and acidity are those that were measured.
class Search {
 public:
  Search(const Measured& measured, const Medium& medium) : m_(measured), medium_(medium) {}

  std::optional<kernel::Crossing> along(const Composition& known, const Composition& more) const {
    return kernel::crossing({kernel::amounts(known), kernel::amounts(more)},
                            {m_.ph.value(), m_.endpoint.value(), charges(m_.titratable) / mole_per_litre}, medium_);
  }

  // The known, with so much of `more` as was found.
  Inferred there(Composition known, const Composition& more, const kernel::Crossing& found) const {
    for (std::size_t i = 0; i < acid_count; ++i) known.acids[i] += found.times * more.acids[i];
    known.rest = equivalents(found.rest * mole_per_litre);
    check_ions(m_, known);
    // Throws beyond the limits of validity.
    if (found.at_endpoint * mole_per_litre > most_ionic_strength) titratable_acidity(known, m_.endpoint, medium_);
    return {known, {}, {}, known.rest};
  }

  // The known acids titrate to so much more than was measured.
  Acidity excess(Composition known) const {
    known.rest = {};
    known.rest = base_to(known, m_.ph, medium_);
    return titratable_acidity(known, m_.endpoint, medium_) - m_.titratable;
  }

 private:
  const Measured& m_;
  const Medium& medium_;
};

Composition only(const std::array<AmountConcentration, acid_count>& acids) {
  Composition out;
  out.acids = acids;
  return out;
}

// A millimole in a litre, so shared out.
Composition one_of(const AcidSplit& split) {
  Composition out;
  for (std::size_t i = 0; i < acid_count; ++i) out.acids[i] = split[i] * millimole_per_litre;
  return out;
}

Composition with_all(Composition known, const std::array<AmountConcentration, acid_count>& more) {
  for (std::size_t i = 0; i < acid_count; ++i) known.acids[i] += more[i];
  return known;
}

// Nothing of it, where the arithmetic finds a hair less.
std::optional<kernel::Crossing> from_nothing_up(std::optional<kernel::Crossing> found) {
  if (!found || found->times < -hair) return std::nullopt;
  found->times = std::max(found->times, 0.0);
  return found;
}

// All the known acids in the same measure; the ions as they are.
Inferred scaled_to_titration(const Measured& m, const Search& search) {
  const Acidity above = search.excess(m.known);
  Composition ions = m.known;
  ions.acids = {};
  const Composition acids_alone = only(m.known.acids);
  const auto found = search.along(ions, acids_alone);
  if (!found || found->times < 0 || (!m.vetted && above > most_above(m))) refuse_acids(m, above);
  Inferred out = search.there(ions, acids_alone, *found);
  out.kept = coherent<Fraction>(found->times);
  return out;
}

}  // namespace

Inferred infer(const Measured& measured, const Medium& medium) {
  // More of an acid than this many times the acidity titrates to next to nothing: it is spent at that pH already.
  constexpr double most_times = 256;
  check(measured);
  const Search search(measured, medium);
  const Composition rest = one_of(normalised(measured.unmeasured)),
                    with_usual = with_all(measured.known, measured.usual);
  const auto beyond = search.along(with_usual, rest);
  const bool too_little =
      beyond ? beyond->times > most_times * measured.titratable.value() : search.excess(with_usual) <= Acidity{};
  if (too_little)
    throw InputError("the acids that the unmeasured rest is taken to be titrate too little from " + text(measured.ph) +
                         " to " + text(measured.endpoint),
                     "measure the pH again");
  if (const auto found = from_nothing_up(beyond)) {
    Inferred out = search.there(with_usual, rest, *found);
    out.of_usual = coherent<Fraction>(1);
    out.unmeasured = found->times * millimole_per_litre;
    return out;
  }
  const Composition usual = only(measured.usual);
  if (const auto found = from_nothing_up(search.along(measured.known, usual))) {
    Inferred out = search.there(measured.known, usual, *found);
    out.of_usual = coherent<Fraction>(found->times);
    return out;
  }
  return scaled_to_titration(measured, search);
}

}  // namespace vatwright::chemistry
