// How the facts of a lot behave (host/plugin/behaviour.hpp), and where their ranges and words come from.
#pragma once

#include "host/plugin/keys.hpp"

namespace vatwright::lot {

inline constexpr Behaviour dissolved{.joins = Joins::by_volume, .thins = Thins::yes};
inline constexpr Behaviour in_the_book{.joins = Joins::by_balance, .thins = Thins::grows, .kept = Kept::book};
inline constexpr Behaviour counted{
    .joins = Joins::as_mean, .thins = Thins::yes, .account = Account::counted, .kept = Kept::book};
// A share of the volume that there was before: what comes later does not thin it.
inline constexpr Behaviour counted_of_before{
    .joins = Joins::as_mean, .thins = Thins::no, .account = Account::counted, .kept = Kept::book};
inline constexpr Behaviour one_word{.joins = Joins::same_word, .thins = Thins::no};
inline constexpr Behaviour shared{.joins = Joins::as_shares, .thins = Thins::no};
inline constexpr Behaviour only_measured{};

inline constexpr Source guard{.title = "guard against slips of the pen", .standing = "common practice, no source"};
inline constexpr Source law{.title = "the words that the rule sets go by"};

}  // namespace vatwright::lot
