// All additions of a recipe on one list: what to weigh for which lot, in which order, the totals to
// fetch from the store, and which of them must not meet.
#pragma once

#include "host/bench/worksheet.hpp"
#include "host/substances/apart.hpp"

namespace vatwright {

// What the steps add, and what they handle beside it, each once.
std::vector<const Substance*> handled_in(const std::vector<StepSheet>& steps);

// In the order of the work: by step, but what waits for its moment after what does not, and a further portion of one
// lot after the portions before it of all lots.
WeighOut weigh_out(const std::vector<StepSheet>& steps, const Apart& apart);

// Whether the addition is part of the total: one substance of one strength, weighed as the total is, or measured.
bool counts_in(const WeighOutTotal& total, const Addition& addition);

}  // namespace vatwright
