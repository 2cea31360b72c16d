// What becomes of the facts of a lot when something that holds none of them is poured in.
#pragma once

#include "host/plugin/outcome.hpp"

#include <optional>

namespace vatwright::facts {

// `known` of the lot, after it; nothing where nobody knows it then. `lot` is as it was before.
std::optional<Value> thinned(const Input& fact, const Value& known, const Analysis& lot, const Poured& poured);

// Completes `outcome` by what it means for the facts of the lot that the step neither changes nor forgets itself. Does
// nothing where nothing was poured in.
void pour_in(const Analysis& lot, std::span<const Input* const> facts, Outcome& outcome);

}  // namespace vatwright::facts
