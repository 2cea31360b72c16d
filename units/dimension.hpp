// The run-time image of a dimension, and the bridge from a Boost.Units type to it.
// Nothing else in the program knows both sides, so the two can never disagree.
#pragma once

#include "units/dimensions.hpp"

#include <boost/units/get_dimension.hpp>

#include <array>
#include <cstdint>
#include <string>

namespace vatwright {

struct Dimension {
  enum Slot : std::uint8_t {
    length,
    mass,
    time,
    current,
    temperature,
    amount,
    ph,
    equivalents,
    turbidity,
    absorbance,
    strength,
    mass_fraction,
    slots
  };
  std::array<std::int8_t, slots> power{};
  bool point = false;  // a temperature on its scale, not an interval

  friend constexpr bool operator==(const Dimension&, const Dimension&) = default;
  constexpr bool plain() const { return *this == Dimension{}; }
};

namespace detail {

template <class Tag>
constexpr auto slot = Dimension::slots;
template <>
inline constexpr auto slot<L> = Dimension::length;
template <>
inline constexpr auto slot<M> = Dimension::mass;
template <>
inline constexpr auto slot<T> = Dimension::time;
template <>
inline constexpr auto slot<I> = Dimension::current;
template <>
inline constexpr auto slot<Theta> = Dimension::temperature;
template <>
inline constexpr auto slot<N> = Dimension::amount;
template <>
inline constexpr auto slot<PhDimension> = Dimension::ph;
template <>
inline constexpr auto slot<EquivalentDimension> = Dimension::equivalents;
template <>
inline constexpr auto slot<TurbidityDimension> = Dimension::turbidity;
template <>
inline constexpr auto slot<AbsorbanceDimension> = Dimension::absorbance;
template <>
inline constexpr auto slot<StrengthDimension> = Dimension::strength;
template <>
inline constexpr auto slot<MassFractionDimension> = Dimension::mass_fraction;

template <class List>
struct Exponents {
  static constexpr void fill(Dimension&) {}
};
template <class Tag, class Exponent, class Rest>
struct Exponents<bu::list<bu::dim<Tag, Exponent>, Rest>> {
  static_assert(Exponent::Denominator == 1, "a laboratory unit has whole exponents");
  static constexpr void fill(Dimension& d) {
    d.power[slot<Tag>] = static_cast<std::int8_t>(Exponent::Numerator);
    Exponents<Rest>::fill(d);
  }
};

template <class Unit>
struct DimensionOf {
  static constexpr Dimension get() {
    Dimension d;
    Exponents<typename bu::get_dimension<Unit>::type>::fill(d);
    return d;
  }
};
template <class Unit>
struct DimensionOf<bu::absolute<Unit>> {
  static constexpr Dimension get() {
    Dimension d = DimensionOf<Unit>::get();
    d.point = true;
    return d;
  }
};

}  // namespace detail

// The run-time dimension of a quantity type: dimension_of<Volume>().
template <class Quantity>
constexpr Dimension dimension_of() {
  return detail::DimensionOf<typename Quantity::unit_type>::get();
}

// "m^-3 kg": the base units with their exponents; "1" for a plain number. Equal for equal dimensions, but for a
// temperature and a difference of two.
std::string base_units(const Dimension& dimension);

// "a volume (such as 'hL')", for messages; base dimensions by symbol where no name is known.
std::string describe(const Dimension& dimension);

}  // namespace vatwright
