// What is dosed for a wanted strength, held against it.
#pragma once

#include "host/plugin/plugin.hpp"

#include <string>

namespace vatwright::sugar {

// The forward model on the rounded amount gives the target back. `target` is the key that was asked
// for, `model` says what reckoned `got`.
Check closing_check(const Key<Strength>& target, Strength wanted, Strength got, std::string model);

// The lot has what was asked for, or more, and nothing is dosed.
Check enough_check(const Key<Strength>& target, Strength wanted, Strength there);

}  // namespace vatwright::sugar
