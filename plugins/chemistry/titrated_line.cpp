#include "plugins/chemistry/titrated_line.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace vatwright::chemistry::kernel {
namespace {

constexpr int most_repeats = 100;
constexpr double standstill = 1e-12;  // mol/L, far below what 1e-9 in pH asks for
constexpr double first_guess = 0.03;  // mol/L, a wine
// A turn goes further by the slope of the last two while that is one that arrives.
constexpr double most_steep = 0.9;

// Charge of the acids' ions, and ionic strength that they make, mol/L.
struct Ions {
  double charge = 0, strength = 0;
};

struct Ends {
  Ions known, more;
};

// One of the two pH's that were read.
class At {
 public:
  At(const Line& line, const Medium& medium, double ph, bool degassed)
      : a_(medium.davies_a()), activity_(power_of_ten(-ph)), water_product_(power_of_ten(-medium.water_pk())) {
    for (const auto& acid : acids) {
      const std::size_t i = index(acid.acid);
      const double known = line.known.acids[i], more = line.more.acids[i];
      if ((known == 0 && more == 0) || (degassed && acid.acid == Acid::carbonic)) continue;
      parts_[size_++] = {known, more, products(medium.constants(acid.acid))};
    }
  }

  // Of the acids, with those of water in what is known.
  Ends ends(double strength) const {
    const double gamma = power_of_ten(-a_ * davies(strength));
    const Steps steps(activity_, gamma);
    const double protons = activity_ / gamma, hydroxide = water_product_ * steps.s1;
    Ends out{{hydroxide - protons, 0.5 * (hydroxide + protons)}, {}};
    for (std::size_t i = 0; i < size_; ++i) {
      const Part& p = parts_[i];
      const Forms forms(p.constants, steps);
      const double charge = forms.z1(), strength_of_one = 0.5 * forms.z2();
      out.known.charge += p.known * charge;
      out.known.strength += p.known * strength_of_one;
      out.more.charge += p.more * charge;
      out.more.strength += p.more * strength_of_one;
    }
    return out;
  }

 private:
  struct Part {
    double known, more;
    Products constants;
  };
  double a_, activity_, water_product_;
  std::array<Part, acid_count> parts_;
  std::size_t size_ = 0;
};

// Where a value that depends on itself stands still.
class Standstill {
 public:
  explicit Standstill(double start) : at_(start) {}
  double at() const { return at_; }
  bool reached(double image) const { return std::abs(image - at_) <= standstill; }
  void go(double image) {
    const double slope = (image - last_image_) / (at_ - last_);
    last_ = at_;
    last_image_ = image;
    const double next = slope > -most_steep && slope < most_steep ? at_ + (image - at_) / (1 - slope) : image;
    at_ = next > 0 ? next : std::max(image, 0.0);
  }

 private:
  double at_, last_image_ = 0, last_ = std::numeric_limits<double>::quiet_NaN();  // no slope yet
};

}  // namespace

std::optional<Crossing> crossing(const Line& line, const Reading& reading, const Medium& medium) {
  refuse_negative(line.known);
  const At first(line, medium, reading.ph, false), last(line, medium, reading.endpoint, true);
  double difference = 0, of_ions = 0;
  for (const auto& ion : ions) {
    const double c = line.known.ions[index(ion.ion)];
    difference += c * ion.charge;
    of_ions += 0.5 * c * ion.charge * ion.charge;
  }
  const auto held = medium.held_ionic_strength();
  const double start = held ? double(*held / mole_per_litre) : of_ions + first_guess;
  Standstill strength(start), at_endpoint(held ? start : start + 0.5 * reading.titratable);
  for (int turn = 0; turn < most_repeats; ++turn) {
    const Ends from = first.ends(strength.at()), to = last.ends(at_endpoint.at());
    const double slope = to.more.charge - from.more.charge;
    if (!(slope > 0)) return std::nullopt;
    const double times = (reading.titratable - (to.known.charge - from.known.charge)) / slope;
    const double rest = from.known.charge + times * from.more.charge - difference;
    const double image = of_ions + from.known.strength + times * from.more.strength + 0.5 * std::abs(rest);
    const double image_at_endpoint = of_ions + to.known.strength + times * to.more.strength + 0.5 * std::abs(rest) +
                                     0.5 * std::abs(reading.titratable);
    if (held || (strength.reached(image) && at_endpoint.reached(image_at_endpoint)))
      return Crossing{times, rest, at_endpoint.at()};
    strength.go(image);
    at_endpoint.go(image_at_endpoint);
  }
  return std::nullopt;
}

}  // namespace vatwright::chemistry::kernel
