// Words for messages: quotes, and the nearest known spelling.
#pragma once

#include <span>
#include <string>
#include <string_view>

namespace vatwright {

inline std::string in_quotes(std::string_view text) { return "'" + std::string(text) + "'"; }

// The known word that is ours for an everyday one (units/everyday.hpp), or that differs in spaces
// and case alone, or that has the fewest slips (letters added, lost, changed or swapped; case counts
// a quarter of a slip) from `word`, or the only one that has all of it within; empty when none is within a
// third of its length, or two are as near.
std::string_view nearest(std::string_view word, std::span<const std::string_view> known);

// "the nearest known one is 'tartaric acid'", or `otherwise` when none is near.
std::string did_you_mean(std::string_view word, std::span<const std::string_view> known,
                         std::string_view otherwise = {});

}  // namespace vatwright
