// The acids of must and wine, the strong ions beside them, and how ethanol moves the constants: the
// one table of each.
#pragma once

#include "plugins/chemistry/sulfite.hpp"
#include "units/atomic_weights.hpp"
#include "units/basis_table.hpp"

#include <array>
#include <cstddef>
#include <cstdint>
#include <string_view>

namespace vatwright::chemistry {

enum class Acid : std::uint8_t {
  tartaric,
  malic,
  lactic,
  citric,
  succinic,
  acetic,
  phosphoric,
  carbonic,
  sulfurous,
  sulfuric,
};
inline constexpr std::size_t acid_count = 10;
inline constexpr std::size_t most_protons = 3;

// A constant of dissociation: thermodynamic, in water, and how it moves with temperature.
struct Constant {
  double pk = 0;             // 25 °C
  double enthalpy = 0;       // of the dissociation at 25 °C, kJ/mol
  double heat_capacity = 0;  // change of it, J/(mol K)
};

struct AcidRow {
  Acid acid;
  std::string_view name;
  MolarMass molar_mass;
  std::size_t protons;  // those that leave below pH 14
  std::array<Constant, most_protons> constants;
};

// One that acidities are counted as too: its formula and its protons are those of the table of units.
consteval AcidRow counted(Acid acid, std::string_view name, std::array<Constant, most_protons> constants) {
  const Basis basis = basis_of(name);
  return {acid, name, molar_mass(basis.formula), static_cast<std::size_t>(basis.per_mole), constants};
}

// Constants at zero ionic strength, never to be mixed with handbook constants read at the ionic strength of wine.
// - tartaric: NIST 46 as in the database minteq.v4; heat capacities Goldberg, Kishore and Lennen, J. Phys. Chem. Ref.
//   Data 31 (2002) 231 (from memory);
// - malic: Eden and Bates, J. Res. NBS 62 (1959) 161: pK1 = 1358.5/T - 5.1382 + 0.013550 T, pK2 = 1658.5/T - 6.2364 +
//   0.019353 T, here as constant, enthalpy and heat capacity at 25 °C (derived);
// - citric: Bénézeth, Palmer and Wesolowski, J. Solution Chem. 26 (1997) 63;
// - succinic: Kettler et al., J. Solution Chem. 24 (1995) 607;
// - lactic: Martin and Tartar, as quoted in ECHA registration dossier 14252: 3.857 + 5.10e-5 (t - 22.5)² (derived);
// - acetic, phosphoric, carbonic: minteq.v4 (heat capacity of acetic acid from memory);
// - sulfurous: Goldberg and Parker, J. Res. NBS 90 (1985) 341 (from memory).
// Carbonic acid is all dissolved carbon dioxide, weighed as CO2; sulfurous acid is the free sulfur
// dioxide, weighed as SO2. The first constant of sulfuric acid only says that it is strong.
inline constexpr std::array<AcidRow, acid_count> acids{{
    counted(Acid::tartaric, "tartaric acid", {{{3.036, 2.93, -147}, {4.366, 0.75, -218}}}),
    counted(Acid::malic, "malic acid", {{{3.458, 2.95, -155}, {5.097, -1.18, -221}}}),
    counted(Acid::lactic, "lactic acid", {{{3.857, -0.43, -176}}}),
    counted(Acid::citric, "citric acid", {{{3.127, 4.1, -162}, {4.759, 2.2, -192}, {6.397, -3.6, -231}}}),
    counted(Acid::succinic, "succinic acid", {{{4.210, 2.9, -98}, {5.638, -0.5, -215}}}),
    counted(Acid::acetic, "acetic acid", {{{4.757, -0.41, -142}}}),
    {Acid::phosphoric, "phosphoric acid", molar_mass("H3PO4"), 3, {{{2.148, -7.9}, {7.198, 3}, {12.375, 15}}}},
    {Acid::carbonic, "carbonic acid", molar_mass("CO2"), 2, {{{6.352, 9.16}, {10.329, 14.6}}}},
    {Acid::sulfurous, "sulfurous acid", molar_mass("SO2"), 2, {{{1.857, -17.8, -272}, {7.172, -3.65, -262}}}},
    counted(Acid::sulfuric, "sulfuric acid", {{{-3.0}, {1.99}}}),
}};

constexpr std::size_t index(Acid acid) { return static_cast<std::size_t>(acid); }
constexpr const AcidRow& row(Acid acid) { return acids[index(acid)]; }

// Ionic product of water (minteq.v4).
inline constexpr Constant water_constant{13.997, 55.81};

// Ions that neither take nor give a proton at the pH of wine. Ammonium is one of them up to pH 8.
enum class Ion : std::uint8_t { potassium, sodium, ammonium, calcium, magnesium, chloride };
inline constexpr std::size_t ion_count = 6;

struct IonRow {
  Ion ion;
  std::string_view name;
  MolarMass molar_mass;
  int charge;
};
inline constexpr std::array<IonRow, ion_count> ions{{
    {Ion::potassium, "potassium", molar_mass("K"), +1},
    {Ion::sodium, "sodium", molar_mass("Na"), +1},
    {Ion::ammonium, "ammonium", molar_mass("NH4"), +1},
    {Ion::calcium, "calcium", molar_mass("Ca"), +2},
    {Ion::magnesium, "magnesium", molar_mass("Mg"), +2},
    {Ion::chloride, "chloride", molar_mass("Cl"), -1},
}};

constexpr std::size_t index(Ion ion) { return static_cast<std::size_t>(ion); }
constexpr const IonRow& row(Ion ion) { return ions[index(ion)]; }

static_assert([] {
  for (std::size_t i = 0; i < acid_count; ++i)
    if (index(acids[i].acid) != i) return false;
  for (std::size_t i = 0; i < ion_count; ++i)
    if (index(ions[i].ion) != i) return false;
  return true;
}());

// How much each thermodynamic pK rises with ethanol: a straight line through water. Named, because
// the sets disagree and a worksheet must say which one ran.
struct EthanolSet {
  std::string_view name;
  std::string_view standing;
  std::array<std::array<double, most_protons>, acid_count> per_percent_vol;
};

// 0.11 to 0.15 for 10 % vol on a first constant, a little more on the further ones (from memory).
inline constexpr double rule_first = 0.013;
inline constexpr double rule_further = 0.015;

inline constexpr EthanolSet working_rule = [] {
  EthanolSet set{"working rule", "one slope for every acid, from memory", {}};
  for (auto& of_acid : set.per_percent_vol) of_acid = {rule_first, rule_further, rule_further};
  return set;
}();

// Lactic and succinic acid from Prenesti, Berto, Toso and Daniele, Sci. World J. 2012, 249041, table
// 4: constants at 12 % vol less those in water, mean of two ionic strengths, the change of the Davies
// term taken off (derived). Sulfurous acid from OIV-MA-AS323-04C, Table I at 20 °C, 0 to 10 % vol.
inline constexpr EthanolSet prenesti_2012 = [] {
  EthanolSet set = working_rule;
  set.name = "Prenesti 2012";
  set.standing = "measured for lactic and succinic acid; sulfurous acid after the OIV; the working rule for the others";
  set.per_percent_vol[index(Acid::lactic)] = {0.180 / 12};
  set.per_percent_vol[index(Acid::succinic)] = {0.196 / 12, 0.191 / 12};
  set.per_percent_vol[index(Acid::sulfurous)][0] = (oiv_pk1_grid.pk1[2][0] - oiv_pk1_grid.pk1[0][0]) / 10;
  return set;
}();

}  // namespace vatwright::chemistry
