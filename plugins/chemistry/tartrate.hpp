// Potassium bitartrate and calcium tartrate: how near a liquid is to dropping crystals, and what is
// left of it when it has.
//
// The classical table of bitartrate solubility is not confirmed, so that the product stands on few
// values (below) and is a guide: at 20 °C in water the course lies 8 % under the cited solubility, at
// 10 °C 13 % under one that is cited with a single digit. The acids keep their constants of 25 °C at
// every temperature. Nothing here knows of colloids, of complexes or of how slowly crystals form.
#pragma once

#include "plugins/chemistry/equilibrium.hpp"

#include <array>
#include <cstdint>

namespace vatwright::chemistry {

inline constexpr MolarMass bitartrate_molar_mass = molar_mass("KC4H5O6");
inline constexpr MolarMass calcium_tartrate_molar_mass = molar_mass("CaC4H4O6·4H2O");

// --- what the product of bitartrate stands on

// The saturated solution in water at 25 °C, pH 3.557, a primary standard of pH (Buck et al., Pure Appl.
// Chem. 74 (2002) 2169: pH seen in copies, molality from memory). Per kilogram of water taken as per
// litre.
inline constexpr AmountConcentration saturated_water_25 = 0.0341 * mole_per_litre;

// Solubility at 10 % vol and 20 °C (seen in general encyclopaedias).
inline constexpr MassConcentration saturated_10_percent_20 = 2.9 * gram_per_litre;

// Further solubilities in water (seen in general encyclopaedias and data collections; the first has
// one digit). They give the course with temperature.
struct CitedSolubility {
  Temperature temperature;
  MassConcentration solubility;
};
inline constexpr std::array<CitedSolubility, 4> cited_solubilities{{{celsius(10), 4.0 * gram_per_litre},
                                                                    {celsius(20), 5.7 * gram_per_litre},
                                                                    {celsius(80), 45.0 * gram_per_litre},
                                                                    {celsius(100), 61.0 * gram_per_litre}}};

// How the solubility falls below 25 °C: along all cited values, or along the one of 10 °C alone. They
// part by a third at -4 °C, which is the spread to be named with every figure.
enum class Course : std::uint8_t { all_values, ten_degrees };

// Solubility in water on such a course: a straight line of its logarithm over 1/T through 25 °C.
MassConcentration bitartrate_solubility_in_water(Temperature temperature, Course course);

// --- the model

using SolubilityProduct = decltype(AmountConcentration{} * AmountConcentration{});

// Whatever is asked for, a saturation temperature is looked for here; one beyond is given as the end.
inline constexpr Temperature least_saturation_temperature = celsius(-20);
inline constexpr Temperature most_saturation_temperature = celsius(60);

struct Deposit {
  AmountConcentration removed{};  // bitartrate, per volume of the liquid
  Composition left{};             // what is still dissolved
  Equilibrium at{};               // of what is left, at the temperature of the deposit
};

// A liquid of so much ethanol, up to `most_acid_strength`; throws InputError beyond, and its functions
// where equilibrium() does.
class Bitartrate {
 public:
  explicit Bitartrate(Strength strength, Course course = Course::all_values);

  // The liquid at a temperature. Its activity coefficients are those of the nearest temperature from
  // 0 to 50 °C: at -4 °C that is 0.4 % of the constant.
  Medium medium(Temperature temperature) const;

  // Activity of potassium times activity of bitartrate over crystals. -20 to 60 °C; below 0 °C the
  // course is carried on.
  SolubilityProduct product(Temperature temperature) const;

  // Ion product over `product`: above one the crystals can grow.
  Fraction saturation(const Composition& composition, Temperature temperature) const;

  // Where the saturation is one; the end of the range when that lies beyond.
  Temperature saturation_temperature(const Composition& composition) const;

  // What falls out until the saturation is one, solved together with the charge balance; nothing from
  // a liquid that is not saturated.
  Deposit deposit(const Composition& composition, Temperature temperature) const;

 private:
  Strength strength_;
  Course course_;
};

// Total potassium times total tartaric acid times its share of bitartrate: the concentration product
// of the trade, without activities. 100 mmol²/L² are 10 in units of 1e-5 mol²/L².
SolubilityProduct concentration_product(const Composition& composition, const Equilibrium& at, const Medium& medium);

// Where a deposit leaves the pH as it is: half way between the constants of tartaric acid. Below it
// the pH falls, above it rises.
Ph tartrate_pivot(const Equilibrium& at, const Medium& medium);

// The deposit reckoned by hand: potassium and tartaric acid fall together until the concentration
// product is `left`, the share of bitartrate (0 to 1, above 0) held.
AmountConcentration deposit_at_held_ph(AmountConcentration potassium, AmountConcentration tartaric,
                                       Fraction bitartrate_share, SolubilityProduct left);

// --- calcium tartrate

// Solubility in water at 20 °C and pH 7: ECHA registration dossier 19371, OECD 105 (seen; taken as the
// tetrahydrate, which the passage did not say).
inline constexpr MassConcentration calcium_tartrate_solubility = 412.0 * milligram_per_litre;

// Ion product of calcium and tartrate over that of the saturated solution in water at 20 °C. Ethanol
// makes it less soluble, so that this reads low in wine; complexes keep more of it dissolved. Neither is
// counted.
Fraction calcium_tartrate_saturation(const Composition& composition, const Equilibrium& at, const Medium& medium);

}  // namespace vatwright::chemistry
