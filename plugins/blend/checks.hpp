// A blend held against what the rule sets say of its composition and of its label.
#pragma once

#include "plugins/blend/keys.hpp"
#include "plugins/blend/predict.hpp"

namespace vatwright::blend {

// Throws InputError for two names of a variety that are one slip of the pen apart, which would count
// as two varieties.
void refuse_two_spellings(std::span<const Portion> portions);

// Shares of the blend by variety, vintage, origin or colour; nothing when one lot does not say.
std::optional<Shares> shares_of(std::string_view what, const NewLot& blend, std::span<const Portion> portions);

// Adds the checks of one rule: its share of members, together, each, or never together. `shares` must
// make 1.
void hold(const CompositionRule& rule, const Shares& shares, Outcome& out);

// All rules that apply to the blend; those that cannot be checked are noted.
void check_composition(const Inputs& in, const NewLot& blend, std::span<const Portion> portions, Outcome& out);

// What the rule sets may ask of the share of a name on the label: of a year or a place more, beside some origins,
// unless the step says which it is.
std::vector<const Limit<Fraction>*> label_limits(const Inputs& in, const NameKey& asked);

// Throws InputError for a variety that is named by itself and among several.
void refuse_two_ways(const Inputs& in);

// The shares of the varieties, the vintage and the place that the label is to name. Throws InputError for one that
// the blend does not have.
void check_label(const Inputs& in, const NewLot& blend, Outcome& out);

}  // namespace vatwright::blend
