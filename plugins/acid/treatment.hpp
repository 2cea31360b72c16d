// From a target to a dose: what acid.addition and acid.reduction have in common.
#pragma once

#include "plugins/acid/wine.hpp"

#include <functional>

namespace vatwright::acid {

// The composition after a dose, mass of the pure substance per volume of the lot. More of it always
// moves the acidity the same way.
using Course = std::function<chemistry::Composition(MassConcentration dose)>;

// A target, either pH or titratable acidity.
class Target {
 public:
  explicit Target(const Inputs& in);

  const Input& key() const { return on_ph_ ? static_cast<const Input&>(target_ph) : target_titratable; }
  bool on_ph() const { return on_ph_; }
  // How much more acid than wanted: base per volume; negative: less.
  Acidity excess(const Wine& wine, const chemistry::Composition& after) const;
  // The figure that the target is about, and what was asked for.
  double reached(const State& state) const { return on_ph_ ? state.ph.value() : state.titratable.value(); }
  double wanted() const { return on_ph_ ? ph_.value() : titratable_.value(); }
  // So near that a laboratory cannot tell.
  double close() const;
  std::string text(double coherent) const;

 private:
  bool on_ph_;
  Ph ph_{};
  Acidity titratable_{};
};

// The dose that meets the target, from zero to `most`. Nothing when `most` falls short of it. Zero when
// the lot is there already, or past it.
std::optional<MassConcentration> solve(const Wine& wine, const Target& target, const Course& course,
                                       MassConcentration most);

// The forward model on the dosed lot gives the target back, but for the rounding of the amount.
void closing_check(const Target& target, const State& exact, const State& dosed, Outcome& out);

// What a laboratory would find, against the target, when nothing was dosed.
void missed_check(const Target& target, const State& now, std::string remedy, Outcome& out);

}  // namespace vatwright::acid
