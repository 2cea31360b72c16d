// Which steps a reading can reach: a reading of a lot reaches the steps on that lot, and on the lots that they make or
// draw from; one of a step reaches that step and what follows from it. The figures of all others do not hang on it.
#pragma once

#include "host/bench/prepared.hpp"
#include "host/bench/worksheet.hpp"

#include <vector>

namespace vatwright {

class Reach {
 public:
  Reach(const Prepared& ready, const Worksheet& sheet);

  // Steps in the order of the recipe.
  std::vector<std::size_t> of_lot(std::size_t lot) const { return from(steps_on_[lot]); }
  std::vector<std::size_t> of_step(std::size_t step) const { return from({step}); }

  // Lots that the step is given, makes or draws from.
  const std::vector<std::size_t>& lots_of(std::size_t step) const { return lots_of_[step]; }
  // Whether a step after this one looks at the lot.
  bool used_after(std::size_t step, std::size_t lot) const { return steps_on_[lot].back() > step; }

 private:
  std::vector<std::size_t> from(const std::vector<std::size_t>& first) const;

  std::vector<std::vector<std::size_t>> lots_of_;   // by step
  std::vector<std::vector<std::size_t>> steps_on_;  // by lot, rising
};

}  // namespace vatwright
