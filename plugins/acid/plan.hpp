// How a carbonate goes into a lot: into all of it, or, for the double salt, into a part that is
// blended back.
#pragma once

#include "plugins/acid/wine.hpp"
#include "plugins/chemistry/acid_treatment.hpp"

namespace vatwright::acid::reduction {

struct Plan {
  chemistry::Composition wine;
  const chemistry::Carbonate* carbonate;
  Fraction falling_out;
  // Of a double-salt treatment that does anything: base per volume of the treated part, which sets its size.
  std::optional<Acidity> in_part{};

  // Most that there is use for: all acidity gone, or the whole lot treated.
  MassConcentration most(Acidity titratable) const { return carbonate->dose(in_part.value_or(titratable)); }
  // The treated part of the lot; all of it where no part is treated alone. `added` up to most().
  Fraction part(MassConcentration added) const;
  chemistry::Composition treated_part() const;  // of a double-salt treatment
  chemistry::Composition after(MassConcentration added, Fraction falling) const;
  chemistry::Composition after(MassConcentration added) const { return after(added, falling_out); }
};

inline constexpr Fraction none_falls = coherent<Fraction>(0), all_fall = coherent<Fraction>(1);

// The lot, and how the carbonate is to go into it.
struct Question {
  Wine wine;
  Plan plan;

  bool double_salt() const { return plan.carbonate->crystals == chemistry::Crystals::double_salt; }
  State after(MassConcentration added) const { return state_of(wine, plan.after(added)); }
};

// Base per volume of the treated part that brings it to the pH down to which both acids fall out, and no
// higher.
Acidity base_to_floor(const Wine& wine, const chemistry::Carbonate& carbonate, Fraction falling_out);

// The same that leaves `left` in it. Throws InputError when the lot has no more than that, or when the
// part would stay below that pH.
Acidity base_leaving(const Wine& wine, const chemistry::Carbonate& carbonate, Fraction falling_out, Acidity left);

}  // namespace vatwright::acid::reduction
