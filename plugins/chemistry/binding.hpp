// Sulfur dioxide bound to the carbonyl compounds of wine, by dissociation constants.
#pragma once

#include "units/atomic_weights.hpp"

#include <string_view>

namespace vatwright::chemistry {

inline constexpr MolarMass so2_molar_mass = molar_mass("SO2");

// One compound that takes up one bisulfite. `dissociation` is [compound][bisulfite]/[adduct] at the
// pH of wine and 20 to 25 °C.
struct BindingCompound {
  std::string_view name;
  MolarMass molar_mass;
  AmountConcentration dissociation;
};

// From memory; the literature goes up to 2.4e-6, 3e-4, 7e-4 and 0.9 mol/L.
inline constexpr BindingCompound acetaldehyde{"acetaldehyde", molar_mass("C2H4O"), 1.5e-6 * mole_per_litre};
inline constexpr BindingCompound pyruvic_acid{"pyruvic acid", molar_mass("C3H4O3"), 1.4e-4 * mole_per_litre};
inline constexpr BindingCompound oxoglutaric_acid{"2-oxoglutaric acid", molar_mass("C5H6O5"), 4.9e-4 * mole_per_litre};
inline constexpr BindingCompound glucose{"glucose", molar_mass("C6H12O6"), 0.64 * mole_per_litre};

// Total concentrations, free and bound; none negative.
struct Binders {
  MassConcentration acetaldehyde{}, pyruvic_acid{}, oxoglutaric_acid{}, glucose{};
};

// Sulfur dioxide that one compound binds beside so much free sulfur dioxide, of which
// `molecular_share` is not bisulfite.
MassConcentration bound_to(const BindingCompound& compound, MassConcentration total_compound,
                           MassConcentration free_so2, Fraction molecular_share);

// Free -> bound: the sum over all of them.
MassConcentration bound_so2(const Binders& binders, MassConcentration free_so2, Fraction molecular_share);

// Total -> free: the one free sulfur dioxide that adds up to the total with what it binds.
// `total_so2` must not be negative.
MassConcentration free_so2(const Binders& binders, MassConcentration total_so2, Fraction molecular_share);

}  // namespace vatwright::chemistry
