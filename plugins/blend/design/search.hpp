// The search for shares: solve, predict, draw the lines anew, until the prediction is what the lines
// said.
#pragma once

#include "plugins/blend/design/formulation.hpp"

#include <variant>

namespace vatwright::blend::design {

struct Found {
  Estimate at;  // the blend, predicted
  Formulation formulation;
  program::Solution solution;
  // The program that chose among the lots, which may have been ended before all choices were tried.
  std::optional<program::Solution> choice;
};

// One of the demands that clash; of a bound, how far the others let the figure come.
struct Clashing {
  Demand demand;
  std::optional<double> reachable;  // coherent
};

struct NoBlend {
  std::vector<Clashing> clash;  // all but any one of them can be met
};

// Throws InputError when the prediction and the lines do not come together.
std::variant<Found, NoBlend> search(const Problem& problem, const Lots& known);

// Beyond a bound by less than this, in steps, is on it.
inline constexpr double on_the_bound = 1e-6;

}  // namespace vatwright::blend::design
