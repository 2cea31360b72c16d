// From a target to a dose: what acid.addition and acid.reduction have in common.
#pragma once

#include "plugins/acid/wine.hpp"

#include <cstdint>
#include <functional>

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

  const Input& key() const { return on_ph_ ? static_cast<const Input&>(target_ph) : target_titratable; }
  // How much more acid than wanted: base per volume; negative: less.
  Acidity excess(const Wine& wine, const chemistry::Composition& after) const;
  // The figure that the target is about, and what was asked for.
  double reached(const State& state) const { return on_ph_ ? state.ph.value() : state.titratable.value(); }
  double wanted() const { return on_ph_ ? ph_.value() : titratable_.value(); }
  // The treatment brings what it is about down to the target, or up to it.
  bool falls() const { return on_ph_ == (acidity_ == Moves::up); }
  // At the target, as far as a sheet shows it, or past it: the treatment has nothing to do.
  bool met_by(const State& state) const;
  // So near that a laboratory cannot tell.
  double close() const;
  std::string text(double coherent) const;

 private:
  // A distance from the target that no sheet shows.
  double unseen() const;

  Moves acidity_;
  bool on_ph_;
  Ph ph_{};
  Acidity titratable_{};
};

// The dose that meets a target that the lot has not met yet, up to `most`. Nothing when `most` falls short
// of it.
std::optional<MassConcentration> solve(const Wine& wine, const Target& target, const Course& course,
                                       MassConcentration most);

// The forward model on the dosed lot gives the target back, but for the rounding of the amount.
void closing_check(const Target& target, const State& exact, const State& dosed, Outcome& out);

// What a laboratory would find, against the target, when nothing was dosed; `remedy` where that misses it.
void target_check(const Target& target, const State& now, std::string remedy, Outcome& out);

// That the lot needs no treatment, and which calculation brings it to a target on the other side.
void note_enough(const Target& target, const State& now, std::string_view other_way, Outcome& out);

}  // namespace vatwright::acid
