// The nearest known spelling, for messages: "did you mean ...?"
#pragma once

#include <span>
#include <string_view>

namespace vatwright {

// The known word with the fewest slips (letters added, lost, changed or swapped; case counts half
// a slip) from `word`; empty when none is within a third of its length.
std::string_view nearest(std::string_view word, std::span<const std::string_view> known);

}  // namespace vatwright
