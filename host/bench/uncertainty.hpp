// The uncertainty of a sheet's figures from that of its readings and of the models in between: first order (JCGM 100),
// or by drawing the readings (JCGM 101). The whole recipe is run anew for each set of readings, so that what two steps
// have in common stays in common.
//
// A dose is decided once, from the readings on the sheet. Its own uncertainty is that of the dose
// which other readings would have asked for; what is expected after it is computed with the dose
// held, since the tank gets the dose and keeps its true values.
#pragma once

#include "host/bench/prepared.hpp"

#include <cstdint>

namespace vatwright {

struct Draws {
  std::size_t count = 0;  // 0: first order
  std::uint64_t seed = 1;
  bool tell_models_alone =
      true;  // of a step without a ± at any reading, in its notes; a table of many lots leaves it out
};

// The most draws that are taken.
inline constexpr std::size_t most_draws = 1'000'000;

// Writes spreads and chances into the steps of a sheet that has been run.
void state_uncertainty(const Prepared& ready, const Draws& draws, Worksheet& sheet);

}  // namespace vatwright
