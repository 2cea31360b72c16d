// From what was measured to a composition that gives it back: pH and titratable acidity say how much
// acid and how much strong ion nobody measured.
#pragma once

#include "plugins/chemistry/equilibrium.hpp"

namespace vatwright::chemistry {

// Unmeasured acids as shares by amount; they need not sum to one.
using AcidSplit = std::array<double, acid_count>;

struct Measured {
  Ph ph;
  Acidity titratable;  // of the degassed sample, to `endpoint`
  Ph endpoint = oiv_endpoint;
  Composition known{};  // acids and ions that were measured; its `rest` is not read
  // Acids that nobody measured, as they usually are: taken for true before the rest is shared out, all of them less
  // where the acidity leaves no room.
  std::array<AmountConcentration, acid_count> usual{};
  AcidSplit unmeasured{};  // what the rest of the acid is taken to be; at least one share positive
  // Readings drawn around ones that passed: known acids above the titration are scaled, however far.
  bool vetted = false;
};

struct Inferred {
  Composition composition;                // the known with the usual and the unmeasured added
  Fraction of_usual;                      // share of the usual acids that there is room for
  AmountConcentration unmeasured;         // all unmeasured acids beyond them together
  Acidity rest;                           // charge of the unmeasured strong ions, composition.rest
  Fraction kept = coherent<Fraction>(1);  // of the known acids, where they titrated to more than was measured
};

// By how much the known acids may titrate above the measured acidity and still be one analysis with it:
// the reproducibility limit of the titration, OIV-MA-AS313-01, red wine (from memory), or in a sour lot
// a share of it, for the errors of the acids themselves (common practice, no source).
inline constexpr Acidity titration_reproducibility = 5.1 * milliequivalent_per_litre;
inline constexpr double acids_reproducibility = 0.04;

// Strong anions (sulfate, chloride) that a wine may hold without anyone having measured them: the
// OIV's limit on sulfate, 1 g/L as potassium sulfate (11.5 meq/L, OIV-MA-C1-01, from memory), and
// room for chloride (common practice, no source).
inline constexpr Acidity most_unmeasured_anions = 20.0 * milliequivalent_per_litre;

// The one composition that has the measured pH and titratable acidity. Throws InputError that names
// what cannot be together:
// - the end point is not above the pH, or the acidity is not positive;
// - the known acids alone titrate to more than the measured acidity, by more than the two figures above
//   (by less: all of them are scaled to the titration, which is the surer reading), or water of that pH
//   does;
// - the pH is lower than the acids alone would have (there would be free mineral acid);
// - the known cations are more than the acids can carry at that pH, by more than
//   `most_unmeasured_anions`.
Inferred infer(const Measured& measured, const Medium& medium);

}  // namespace vatwright::chemistry
