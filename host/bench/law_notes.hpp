// What a step says of the rules beside its checks: which of them are silent, and what comes with the wine.
#pragma once

#include "host/bench/given.hpp"

namespace vatwright {

// A set of rules that has no row for what the step doses: that nothing forbids it there is no leave.
void note_silent_rules(const GivenInputs& inputs, const Rules& rules, Outcome& outcome);

// Of a must: the figures that the wine will be held to, and what it has of them now.
void note_wine_to_come(const GivenInputs& inputs, const Rules& rules, Outcome& outcome);

}  // namespace vatwright
