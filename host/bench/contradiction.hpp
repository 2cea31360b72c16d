// A step that says of its lot what the lot says otherwise: which of the two is in the tank?
#pragma once

#include "host/bench/lots.hpp"
#include "host/plugin/outcome.hpp"

namespace vatwright {

// Throws BadInput, placed at the input of the step, where the lot has another value than the step gives. The same
// within the digits that are written is no other value.
void refuse_contradiction(const Recipe& recipe, const BoundStep& step, const LotState& lot);

// The same before anything is computed, as far as the lots are known then: of what no earlier step may change.
void refuse_contradictions(const Recipe& recipe, const std::vector<BoundStep>& steps,
                           const std::vector<LotState>& lots);

// A check that fails for each contradiction among the readings that the step takes: those of its lot, and its own.
// What an earlier step forecast is no reading. Nothing when there is none.
Outcome contradicted(const BoundStep& step, const std::vector<LotState>& lots);

}  // namespace vatwright
