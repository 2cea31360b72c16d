// What becomes of the facts of a lot that hang on another one, when a step moves that.
#pragma once

#include "host/plugin/outcome.hpp"

#include <span>

namespace vatwright::facts {

// Whether a quantity of the lot has that figure already, rounding apart.
bool is_as_it_was(const Analysis& lot, const Input& fact, const Value& value);

// Whether the step itself says what becomes of a fact.
bool is_settled(const Input& fact, const Outcome& outcome);

// Forgets what is read of something (Behaviour::of) that the step changes or raises, unless the step says itself what
// becomes of it, or that was thinned with all the rest (pour_in, which comes before).
void forget_what_hangs_on(const Analysis& lot, std::span<const Input* const> facts, Outcome& outcome);

}  // namespace vatwright::facts
