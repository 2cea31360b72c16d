// Alcoholometry: density, strength by volume and share by mass of mixtures of ethanol and water,
// after OIML R 22. The liquid holds nothing else: a wine's extract is not in these answers.
//
// All of it is valid from -20 to 40 °C and over the whole span from water to ethanol; InputError is
// thrown outside. Densities are those in vacuo. Below the freezing point they are those of the
// supercooled liquid (for water within 0.03 kg/m³ of Kell's equation).
#pragma once

#include "plugins/chemistry/hydrometer.hpp"
#include "units/constants.hpp"

namespace vatwright::chemistry {

inline constexpr Temperature alcoholometry_least_temperature = celsius(-20);
inline constexpr Temperature alcoholometry_most_temperature = celsius(40);
inline constexpr Temperature strength_temperature = celsius(20);

namespace kernel {

// Mass fraction of ethanol at a density, kg/m³, and a temperature, °C. A density past that of water
// or of ethanol gives the bound.
double ethanol_mass_fraction(double density, double t);

// Volume fraction at 20 °C from the mass fraction, and back.
double strength_by_volume(double mass_fraction);
double strength_by_mass(double volume_fraction);

}  // namespace kernel

Density ethanol_water_density(MassFraction ethanol, Temperature temperature);

// The one mass fraction that has this density at this temperature; it lies between those of ethanol
// and of water there.
MassFraction ethanol_mass_fraction(Density density, Temperature temperature);

// Strength (volume of pure ethanol at 20 °C in one of liquid at 20 °C) and share by mass.
Strength strength_of(MassFraction ethanol);
MassFraction ethanol_by_mass(Strength strength);

// Grams of ethanol in a litre at 20 °C.
MassConcentration ethanol_concentration(Strength strength);

// What an instrument graduated in % vol for 20 °C showed elsewhere.
enum class Alcoholometer {
  glass_hydrometer,  // OIML R 44, soda glass
  density_meter      // an oscillating cell that turns the density at `temperature` into strength
};

// Strength from such an apparent reading.
Strength strength_from_apparent(Strength apparent, Temperature temperature, Alcoholometer instrument);

// A quantity of ethanol and water.
struct EthanolWater {
  Mass mass;
  MassFraction ethanol;
};
EthanolWater ethanol_water(Volume at_20, Strength strength);

// Two put together: mass adds up, volume does not. `contraction` is what is lost of the two volumes,
// all three at the same temperature; it is negative where the mix takes up more room. Masses must not
// be negative, nor both zero.
struct Mixed {
  EthanolWater liquid;
  Volume volume, contraction;
};
Mixed mix(const EthanolWater& a, const EthanolWater& b, Temperature temperature = strength_temperature);

}  // namespace vatwright::chemistry
