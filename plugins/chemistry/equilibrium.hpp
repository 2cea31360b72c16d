// pH, titratable acidity and buffer capacity of a known composition: one charge balance.
//
// Valid for liquids like must and wine: ionic strength up to 0.5 mol/L (refused beyond), all in one
// clear phase (nothing falls out or boils off), no complexes of calcium, magnesium or sulfite, none of
// the phenols and amino acids that titrate above pH 7. Those make real titrations to pH 8.2 larger than
// here: the model does not turn an acidity to pH 7 into one to pH 8.2. Concentrations per litre stand
// for those per kilogram of solvent. All functions are pure and may run in parallel.
// They throw InputError for a negative concentration and outside the limits above.
#pragma once

#include "plugins/chemistry/activity.hpp"
#include "plugins/chemistry/composition.hpp"

namespace vatwright::chemistry {

inline constexpr Ph oiv_endpoint = 7.0 * ph_unit;  // OIV-MA-AS313-01

struct Equilibrium {
  Ph ph;  // minus the decadic logarithm of the proton's activity
  AmountConcentration ionic_strength;
};

// The pH that the composition has, from 0 to 14.
Equilibrium equilibrium(const Composition& composition, const Medium& medium);
// The same, found sooner when its pH is near this one.
Equilibrium equilibrium(const Composition& composition, const Medium& medium, Ph near);

// Strong base that brings it to a pH from 0 to 14 (negative: strong acid), per volume of the sample,
// the titrant's own volume left out. What Composition::add_base() takes.
Acidity base_to(const Composition& composition, Ph target, const Medium& medium);

// The same liquid without its carbon dioxide; cations that were bicarbonate stay.
Composition degassed(Composition composition);

// Strong base that brings the degassed sample to the end point (OIV-MA-AS313-01: pH 7, carbon dioxide
// not counted).
Acidity titratable_acidity(const Composition& composition, Ph endpoint, const Medium& medium);

// Strong base per rise of pH at the pH that the composition has.
BufferCapacity buffer_capacity(const Composition& composition, const Medium& medium);
// The same where that pH is known already.
BufferCapacity buffer_capacity(const Composition& composition, Ph ph, const Medium& medium);

// How much of an acid has lost `charge` protons (0: none) at an equilibrium.
Fraction share(Acid acid, std::size_t charge, const Equilibrium& at, const Medium& medium);

}  // namespace vatwright::chemistry
