// From a target to a dose: what acid.addition and acid.reduction have in common.
#pragma once

#include "plugins/acid/wine.hpp"
#include "plugins/chemistry/tartrate.hpp"
#include "plugins/lab/dose.hpp"

#include <cstdint>
#include <functional>
#include <string>
#include <variant>

namespace vatwright::acid {

// The composition after a dose, mass of the pure substance per volume of the lot. More of it always
// moves the acidity the same way.
using Course = std::function<chemistry::Composition(MassConcentration dose)>;

// Which way a treatment moves the acidity of the lot; its pH goes the other way.
enum class Moves : std::uint8_t { up, down };

// A target, either pH or titratable acidity, of a treatment.
class Target {
 public:
  Target(const Inputs& in, Moves acidity);
  // What a stated amount makes of the lot as it is `now`.
  Target(const State& now, const State& meant);

  // How much more acid than wanted: base per volume; negative: less.
  Acidity excess(const Wine& wine, const chemistry::Composition& after) const;
  // The treatment brings what it is about down to the target, or up to it.
  bool falls() const;
  // At the target, as far as a sheet shows it or the rounding of an earlier dose lets it be, or past it: the
  // treatment has nothing to do.
  bool met_by(const State& state) const;
  bool nearly_met_by(const State& state) const;
  // What a laboratory would find, against the target, when nothing was dosed; `remedy` where that misses it.
  Check met(const State& now, std::string remedy = {}) const;
  // Whether the dosed lot comes near enough to it; `exact` is the lot with the dose before rounding.
  Check closing(const State& exact, const State& dosed, std::string model, std::string_view way_out) const;
  std::string wanted() const;                     // "pH 3.30"
  std::string reached(const State& state) const;  // as that

 private:
  std::variant<lab::Aim<Ph>, lab::Aim<Acidity>> aim_;
};

// The dose that meets a target that the lot has not met yet, up to `most`. Nothing when `most` falls short
// of it.
std::optional<MassConcentration> solve(const Wine& wine, const Target& target, const Course& course,
                                       MassConcentration most);

// The doses that the two ends of the unmeasured acids would ask for, where that makes a difference. `course_of` says
// how a wine is treated.
void tell_span(const Inputs& in, const Wine& wine, const Target& target, MassConcentration dose, MassConcentration most,
               const std::function<Course(const Wine&)>& course_of, Outcome& out);

// What is left when as much bitartrate has fallen out of what is dissolved as a pure solution of that strength lets
// fall at the temperature of the tank.
struct AtEquilibrium {
  Temperature temperature;
  chemistry::Deposit deposit;
};
// Nothing where the lot's temperature, potassium or tartaric acid is not known: an inferred one would not bear it.
std::optional<AtEquilibrium> at_equilibrium(const Inputs& in, const chemistry::Composition& dissolved);

// That the lot needs no treatment, and which calculation brings it to a target on the other side.
void note_enough(const Target& target, const State& now, std::string_view other_way, Outcome& out);

}  // namespace vatwright::acid
