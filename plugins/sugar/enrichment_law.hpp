// What the rule sets say of a must that is enriched, with what was done to it before.
#pragma once

#include "plugins/chemistry/sweetening.hpp"
#include "plugins/sugar/enrichment.hpp"

#include <optional>
#include <string>

namespace vatwright::sugar::enrichment {

// What one amount of sweetener makes of the must.
struct Gain {
  Strength strength;  // by this step
  Strength total;
  Fraction volume;         // by this step, of the must as it stands
  MassFraction dissolved;  // then
};

class Law {
 public:
  Law(const Inputs& in, bool concentrated);

  // What the law counts: all enrichments of this must together, and all tirage liqueur of this cuvée.
  Strength strength_gained(const Gain& gain) const { return strength_so_far_ + gain.strength; }
  Strength tirage_gained(const Gain& gain) const { return tirage_so_far_ + gain.strength; }
  Fraction volume_gained(const Gain& gain) const { return (1.0 + volume_so_far_) * (1.0 + gain.volume) - 1.0; }

  // By an earlier step, or before it came here.
  bool was_enriched() const { return strength_so_far_ > Strength{} || volume_so_far_ > Fraction{}; }
  bool forbids(const Gain& gain) const;
  // The most total strength, and the most gain in volume by this step, that no limit forbids; nothing
  // where none bounds it.
  std::optional<Strength> most_total(Strength now) const;
  std::optional<Fraction> most_volume() const;
  bool forbids_solids(MassFraction dissolved) const;

  // A check for each limit; `remedy` is read where one does not hold.
  void hold(const Gain& gain, const std::string& remedy, Outcome& out) const;
  // What the limits rest on, and that there is none.
  void say(const Inputs& in, Outcome& out) const;

 private:
  bool bounds_something() const { return gain_ || tirage_ || total_ || volume_ || solids_; }

  Strength strength_so_far_{}, tirage_so_far_{};
  Fraction volume_so_far_{};
  Acidity acid_added_{};
  std::optional<Bound<Acidity>> acidified_;
  std::optional<Bound<Strength>> gain_, tirage_, total_;
  std::optional<Bound<Fraction>> volume_;
  std::optional<Bound<MassFraction>> solids_;
};

}  // namespace vatwright::sugar::enrichment
