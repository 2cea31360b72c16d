// What is stirred into a must or a wine to make it sweeter: sucrose, which is weighed, or concentrated must, which is
// measured out.
#pragma once

#include "host/plugin/plugin.hpp"
#include "plugins/chemistry/sweetening.hpp"
#include "plugins/lab/rounding.hpp"
#include "units/print.hpp"

#include <optional>
#include <string>
#include <string_view>

namespace vatwright::sugar {

struct Stirred {
  chemistry::Sweetener what;
  std::optional<MassFraction> strength;  // of concentrated must

  Density density() const;  // of the same
  double left_by_rounding() const;
  Mass measured(Mass exact, lab::Rounding rounding) const;
  void order(std::string_view id, Mass added, Volume lot, Outcome& out) const;
};

// Throws InputError for concentrated must without its strength, and for a strength of anything else.
Stirred stirred_in(const std::string& id, bool concentrated, std::optional<MassFraction> strength);

// A lot that it goes into, of which all sugar may become alcohol.
struct Stirring {
  chemistry::SweetMust now;
  Stirred sweetener;
  chemistry::YieldFactor factor;

  chemistry::SweetMust after(Mass added) const {
    return added > Mass{} ? chemistry::sweetened(now, sweetener.what, added) : now;
  }
  Strength total(const chemistry::SweetMust& then) const { return chemistry::total_strength(then, factor); }
  Strength gain(const chemistry::SweetMust& then) const { return total(then) - total(now); }
};

inline void ask_for_room(Volume grows, Outcome& out) {
  out.task("leave room in the vessel: the volume grows by " + print(grows, "L", 1));
}

}  // namespace vatwright::sugar
