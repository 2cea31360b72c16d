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
  Composition known{};     // acids and ions that were measured; its `rest` is not read
  AcidSplit unmeasured{};  // what the rest of the acid is taken to be; at least one share positive
};

struct Inferred {
  Composition composition;         // the known with the unmeasured added
  AmountConcentration unmeasured;  // all unmeasured acids together
  Acidity rest;                    // charge of the unmeasured strong ions, composition.rest
};

// Strong anions (sulfate, chloride) that a wine may hold without anyone having measured them: the
// OIV's limit on sulfate, 1 g/L as potassium sulfate (11.5 meq/L, OIV-MA-C1-01, from memory), and
// room for chloride (common practice, no source).
inline constexpr Acidity most_unmeasured_anions = 20.0 * milliequivalent_per_litre;

// The one composition that has the measured pH and titratable acidity. Throws InputError that names
// what cannot be together:
// - the end point is not above the pH, or the acidity is not positive;
// - the known acids alone, or water of that pH, titrate to more than the measured acidity;
// - the pH is lower than the acids alone would have (there would be free mineral acid);
// - the known cations are more than the acids can carry at that pH, by more than
//   `most_unmeasured_anions`.
Inferred infer(const Measured& measured, const Medium& medium);

}  // namespace vatwright::chemistry
