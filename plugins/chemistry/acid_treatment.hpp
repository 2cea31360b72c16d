// What cellar work does to the acids: carbonates, with and without the crystals that follow, and the
// malolactic conversion. All carbon dioxide is taken to leave.
#pragma once

#include "plugins/chemistry/composition.hpp"

#include <string_view>

namespace vatwright::chemistry {

// Equivalents of an acid, all its protons counted (tartaric acid: 2 a mole), and back.
constexpr Acidity equivalents(Acid acid, MassConcentration mass) {
  return equivalents(mass / row(acid).molar_mass * static_cast<double>(row(acid).protons));
}

// What falls out, with the cation that a carbonate brought.
enum class Crystals : std::uint8_t {
  bitartrate,        // KHT: one potassium, one tartaric acid
  calcium_tartrate,  // CaT: one calcium, one tartaric acid
  double_salt,       // Ca2TM: two calcium, one tartaric and one malic acid; then calcium tartrate
};

// A carbonate that takes acid away, or a tartrate: it brings tartaric acid with its cation, and the two fall out.
struct Carbonate {
  std::string_view substance;  // id in the catalogue
  MolarMass molar_mass;
  double equivalents;  // base in one mole
  Ion cation;
  Crystals crystals;
  double tartaric = 0;  // moles of tartaric acid in one mole, as its dianion

  constexpr Acidity base(MassConcentration dose) const {
    return chemistry::equivalents(dose / molar_mass * equivalents);
  }
  constexpr MassConcentration dose(Acidity base) const { return charges(base) / equivalents * molar_mass; }
};

inline constexpr std::array<Carbonate, 5> carbonates{{
    {"calcium carbonate", molar_mass("CaCO3"), 2, Ion::calcium, Crystals::calcium_tartrate},
    {"potassium bicarbonate", molar_mass("KHCO3"), 1, Ion::potassium, Crystals::bitartrate},
    {"potassium carbonate", molar_mass("K2CO3"), 2, Ion::potassium, Crystals::bitartrate},
    {"double-salt treatment", molar_mass("CaCO3"), 2, Ion::calcium, Crystals::double_salt},
    {"potassium tartrate", molar_mass("K2C4H4O6"), 2, Ion::potassium, Crystals::bitartrate, 1},
}};

// The pH down to which the part of a double-salt treatment must stay, so that malic acid falls out
// too: its second pK (common practice, no source).
inline constexpr Ph double_salt_floor = 5.1 * ph_unit;

// After so much of the carbonate. `falling_out`, 0 to 1: the share of its cation that leaves in
// crystals, as far as the acids last; what is left of it stays dissolved.
Composition after_carbonate(Composition wine, const Carbonate& carbonate, Acidity base, Fraction falling_out);

// After so much potassium bitartrate has fallen out, as far as tartaric acid lasts.
Composition after_bitartrate(Composition wine, AmountConcentration crystals);

// Malic acid to lactic acid and carbon dioxide, one for one. `converted` from 0 to 1.
Composition after_malolactic(Composition wine, Fraction converted);

}  // namespace vatwright::chemistry
