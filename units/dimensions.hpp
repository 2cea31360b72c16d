// Compile-time quantities: every physical argument in a plugin has one of these types.
// They stand on Boost.Units, in one coherent system: SI without the candela, and our own
// base dimensions for kinds that physics would mix (a pH is not a ratio, an acid equivalent
// is not a mole, per cent by volume is not per cent by mass).
#pragma once

#include <boost/units/absolute.hpp>
#include <boost/units/base_dimension.hpp>
#include <boost/units/base_unit.hpp>
#include <boost/units/base_units/si/ampere.hpp>
#include <boost/units/base_units/si/kelvin.hpp>
#include <boost/units/base_units/si/kilogram.hpp>
#include <boost/units/base_units/si/meter.hpp>
#include <boost/units/base_units/si/mole.hpp>
#include <boost/units/base_units/si/second.hpp>
#include <boost/units/derived_dimension.hpp>
#include <boost/units/make_system.hpp>
#include <boost/units/quantity.hpp>

namespace vatwright {

namespace bu = boost::units;

struct PhDimension : bu::base_dimension<PhDimension, 101> {};
struct EquivalentDimension : bu::base_dimension<EquivalentDimension, 102> {};
struct TurbidityDimension : bu::base_dimension<TurbidityDimension, 103> {};
struct AbsorbanceDimension : bu::base_dimension<AbsorbanceDimension, 104> {};
struct StrengthDimension : bu::base_dimension<StrengthDimension, 105> {};
struct MassFractionDimension : bu::base_dimension<MassFractionDimension, 106> {};

struct PhBaseUnit : bu::base_unit<PhBaseUnit, PhDimension::dimension_type, 101> {};
struct EquivalentBaseUnit : bu::base_unit<EquivalentBaseUnit, EquivalentDimension::dimension_type, 102> {};
struct TurbidityBaseUnit : bu::base_unit<TurbidityBaseUnit, TurbidityDimension::dimension_type, 103> {};
struct AbsorbanceBaseUnit : bu::base_unit<AbsorbanceBaseUnit, AbsorbanceDimension::dimension_type, 104> {};
struct StrengthBaseUnit : bu::base_unit<StrengthBaseUnit, StrengthDimension::dimension_type, 105> {};
struct MassFractionBaseUnit : bu::base_unit<MassFractionBaseUnit, MassFractionDimension::dimension_type, 106> {};

namespace detail {
// What bu::make_system does, for as many base units as we need (its own form stops at ten).
template <class... BaseUnits>
struct UnitList;
template <>
struct UnitList<> {
  using type = bu::dimensionless_type;
};
template <class First, class... Rest>
struct UnitList<First, Rest...> {
  using type = bu::list<First, typename UnitList<Rest...>::type>;
};
template <class... BaseUnits>
using SystemOf =
    bu::homogeneous_system<typename bu::detail::insertion_sort<typename UnitList<BaseUnits...>::type>::type>;
}  // namespace detail

using System =
    detail::SystemOf<bu::si::meter_base_unit, bu::si::kilogram_base_unit, bu::si::second_base_unit,
                     bu::si::ampere_base_unit, bu::si::kelvin_base_unit, bu::si::mole_base_unit, PhBaseUnit,
                     EquivalentBaseUnit, TurbidityBaseUnit, AbsorbanceBaseUnit, StrengthBaseUnit, MassFractionBaseUnit>;

namespace detail {
using L = bu::length_base_dimension;
using M = bu::mass_base_dimension;
using T = bu::time_base_dimension;
using I = bu::current_base_dimension;
using Theta = bu::temperature_base_dimension;
using N = bu::amount_base_dimension;
template <class Dimension>
using Derived = bu::quantity<bu::unit<typename Dimension::type, System>>;
template <class Base>
using Plain = bu::quantity<bu::unit<typename Base::dimension_type, System>>;
}  // namespace detail

using Length = detail::Plain<detail::L>;
using Mass = detail::Plain<detail::M>;
using Time = detail::Plain<detail::T>;
using Amount = detail::Plain<detail::N>;
using Ph = detail::Plain<PhDimension>;
using Equivalents = detail::Plain<EquivalentDimension>;
using Turbidity = detail::Plain<TurbidityDimension>;
using Absorbance = detail::Plain<AbsorbanceDimension>;
// Volume of pure ethanol at 20 °C per volume of liquid at 20 °C (OIML R 22).
using Strength = detail::Plain<StrengthDimension>;
// Mass of a solute (sucrose, ethanol, dissolved solids) per mass of solution.
using MassFraction = detail::Plain<MassFractionDimension>;
// A plain ratio: a share, a yield, a pK.
using Fraction = bu::quantity<bu::unit<bu::dimensionless_type, System>>;

// Two temperatures do not add; the difference of two temperatures is an interval.
using TemperatureUnit = bu::unit<detail::Theta::dimension_type, System>;
using Temperature = bu::quantity<bu::absolute<TemperatureUnit>>;
using TemperatureInterval = bu::quantity<TemperatureUnit>;

using Volume = detail::Derived<bu::derived_dimension<detail::L, 3>>;
// Mass per volume: a concentration of something, or the density of the liquid.
using MassConcentration = detail::Derived<bu::derived_dimension<detail::M, 1, detail::L, -3>>;
using Density = MassConcentration;
using AmountConcentration = detail::Derived<bu::derived_dimension<detail::N, 1, detail::L, -3>>;
// Equivalents per volume: what every acidity is carried as.
using Acidity = detail::Derived<bu::derived_dimension<EquivalentDimension, 1, detail::L, -3>>;
using BufferCapacity = detail::Derived<bu::derived_dimension<detail::N, 1, detail::L, -3, PhDimension, -1>>;
using MolarMass = detail::Derived<bu::derived_dimension<detail::M, 1, detail::N, -1>>;
using EquivalentMass = detail::Derived<bu::derived_dimension<detail::M, 1, EquivalentDimension, -1>>;
using AbsorbancePerLength = detail::Derived<bu::derived_dimension<AbsorbanceDimension, 1, detail::L, -1>>;
using Conductivity = detail::Derived<bu::derived_dimension<detail::I, 2, detail::T, 3, detail::M, -1, detail::L, -3>>;
using Voltage = detail::Derived<bu::derived_dimension<detail::M, 1, detail::L, 2, detail::T, -3, detail::I, -1>>;
using Pressure = detail::Derived<bu::derived_dimension<detail::M, 1, detail::L, -1, detail::T, -2>>;
using Energy = detail::Derived<bu::derived_dimension<detail::M, 1, detail::L, 2, detail::T, -2>>;
using Power = detail::Derived<bu::derived_dimension<detail::M, 1, detail::L, 2, detail::T, -3>>;
// What a litre of food gives who drinks it; a pressure is energy per volume too.
using EnergyPerVolume = Pressure;

}  // namespace vatwright
