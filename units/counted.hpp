// A quantity counted as one substance. Amounts of two substances do not add: milligrams of
// sulfur dioxide and milligrams of metabisulfite are both masses, and mixing them up is the
// classical dosing mistake.
#pragma once

#include <type_traits>

namespace vatwright {

template <class Substance, class Quantity>
class Counted {
 public:
  using quantity = Quantity;
  using substance = Substance;

  constexpr explicit Counted(Quantity value) : value_(value) {}
  constexpr Quantity value() const { return value_; }

  // The only way across: `share` is the mass of `Other` in one mass of `Substance`.
  template <class Other, class Ratio>
  constexpr Counted<Other, Quantity> recount(Ratio share) const {
    return Counted<Other, Quantity>(value_ * share);
  }

 private:
  Quantity value_;
};

template <class Substance, class Quantity>
constexpr Counted<Substance, Quantity> as(Quantity value) {
  return Counted<Substance, Quantity>(value);
}

template <class A, class B, class Q>
constexpr Counted<A, Q> operator+(Counted<A, Q> a, Counted<B, Q> b) {
  static_assert(std::is_same_v<A, B>, "counted as different substances: recount one of them first");
  return Counted<A, Q>(a.value() + b.value());
}

}  // namespace vatwright
