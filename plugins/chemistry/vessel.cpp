#include "plugins/chemistry/vessel.hpp"

#include <boost/math/constants/constants.hpp>
#include <boost/math/quadrature/gauss_kronrod.hpp>

#include <algorithm>
#include <cmath>

namespace vatwright::chemistry {
namespace {

constexpr double pi = boost::math::constants::pi<double>();

template <class Function>
double integral(Function f, double from, double to) {
  constexpr int halvings = 12;
  constexpr double near_enough = 1e-11;
  return to > from ? boost::math::quadrature::gauss_kronrod<double, 31>::integrate(f, from, to, halvings, near_enough)
                   : 0.0;
}

// Of a circle of radius r, filled to h.
double segment(double r, double h) {
  if (h <= 0) return 0;
  if (h >= 2 * r) return pi * r * r;
  return r * r * std::acos((r - h) / r) - (r - h) * std::sqrt(h * (2 * r - h));
}

// A dished bottom turned about its middle: a crown, and the knuckle that leads into the wall.
class Dish {
 public:
  Dish(double diameter, double crown, double knuckle)
      : crown_(crown * diameter), knuckle_(knuckle * diameter), middle_(diameter / 2 - knuckle_) {
    // Both circles touch where the line through their centres meets them.
    const double apart = crown_ - knuckle_;
    depth_ = crown_ - std::sqrt(apart * apart - middle_ * middle_);
    const double rise = depth_ - knuckle_ * std::sqrt(1 - std::pow(middle_ / apart, 2));
    touch_ = rise;
  }
  double depth() const { return depth_; }
  double to(double h) const {
    const auto crown = [&](double z) { return pi * z * (2 * crown_ - z); };
    const auto knuckle = [&](double z) {
      const double r = middle_ + std::sqrt(std::max(0.0, knuckle_ * knuckle_ - (depth_ - z) * (depth_ - z)));
      return pi * r * r;
    };
    return integral(crown, 0, std::min(h, touch_)) + integral(knuckle, touch_, std::min(h, depth_));
  }

 private:
  double crown_, knuckle_, middle_;  // middle_: from the axis to the knuckle's centre
  double depth_ = 0, touch_ = 0;
};

Dish dish(const Upright& v) {
  return v.bottom == Bottom::shallow_dish ? Dish(v.diameter.value(), 1.0, 0.1) : Dish(v.diameter.value(), 0.8, 0.154);
}

double bottom_depth(const Upright& v) {
  switch (v.bottom) {
    case Bottom::flat:
      return 0;
    case Bottom::cone:
    case Bottom::ellipsoid:
      return v.bottom_depth.value();
    case Bottom::shallow_dish:
    case Bottom::deep_dish:
      break;
  }
  return dish(v).depth();
}

double bottom_to(const Upright& v, double h) {
  const double r = v.diameter.value() / 2, a = bottom_depth(v);
  switch (v.bottom) {
    case Bottom::flat:
      return 0;
    case Bottom::cone:
      return pi * r * r * a / 3 * std::pow(h / a, 3);
    case Bottom::ellipsoid:
      return pi * r * r * (h * h / a - h * h * h / (3 * a * a));
    case Bottom::shallow_dish:
    case Bottom::deep_dish:
      break;
  }
  return dish(v).to(h);
}

double depth_of(const Upright& v) { return bottom_depth(v) + v.wall.value(); }
double depth_of(const Lying& v) { return v.height.value(); }
double depth_of(const Box& v) { return v.height.value(); }
double depth_of(const Barrel& v) { return v.bulge.value(); }

double filled(const Upright& v, double h) {
  const double r = v.diameter.value() / 2, a = bottom_depth(v);
  if (a > 0 && h <= a) return bottom_to(v, h);
  return (a > 0 ? bottom_to(v, a) : 0) + pi * r * r * (h - a);
}

// An ellipse is a circle stretched sideways, and so are its ends.
double filled(const Lying& v, double h) {
  const double r = v.height.value() / 2, wide = v.width.value() / v.height.value(), a = v.end_depth.value();
  return wide * (v.length.value() * segment(r, h) + pi * a / r * (r * h * h - h * h * h / 3));
}

// Up to the slope's top the wine is a wedge.
double filled(const Box& v, double h) {
  const double floor = v.length.value() * v.width.value(), s = v.slope.value();
  if (h < s) return floor * h * h / (2 * s);
  return floor * (h - s / 2);
}

double filled(const Barrel& v, double h) {
  const double half = v.length.value() / 2, bulge = v.bulge.value(), head = v.head.value();
  const auto slice = [&](double x) {
    const double diameter = bulge - (bulge - head) * (x / half) * (x / half);
    return segment(diameter / 2, h - (bulge - diameter) / 2);
  };
  // Beyond where a low level reaches there is nothing, and the slices have a corner there.
  const double low = std::min(h, bulge - h);
  const double corner = 2 * low < bulge - head ? half * std::sqrt(2 * low / (bulge - head)) : half;
  return 2 * (integral(slice, 0, corner) + integral(slice, corner, half));
}

}  // namespace

Length depth(const Vessel& vessel) {
  return coherent<Length>(std::visit([](const auto& v) { return depth_of(v); }, vessel));
}

Volume volume_to(const Vessel& vessel, Length dip) {
  const double h = std::clamp(dip.value(), 0.0, depth(vessel).value());
  return coherent<Volume>(std::visit([h](const auto& v) { return filled(v, h); }, vessel));
}

}  // namespace vatwright::chemistry
