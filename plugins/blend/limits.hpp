// The analysis of a blend held against the figures of the rule sets.
#pragma once

#include "plugins/blend/predict.hpp"

#include <array>

namespace vatwright::blend {

inline constexpr Limit<MassConcentration> total_so2_limit{
    {.name = lot::total_so2.name, .help = "most total sulfur dioxide", .unit = "mg/L"}};
inline constexpr Limit<MassConcentration> free_so2_limit{
    {.name = lot::free_so2.name, .help = "free sulfur dioxide", .unit = "mg/L"}};
inline constexpr Limit<Acidity> volatile_acidity_limit{
    {.name = lot::volatile_acidity.name, .help = "most volatile acidity", .unit = "g/L as acetic acid"}};
inline constexpr Limit<MassConcentration> sodium_limit{
    {.name = lot::sodium.name, .help = "most sodium", .unit = "mg/L"}};
inline constexpr std::array<const LimitInfo*, 4> analysis_topics{&total_so2_limit, &free_so2_limit,
                                                                 &volatile_acidity_limit, &sodium_limit};

// Adds the checks of what is known of the blend. Where its lots differ in colour and the step does not
// say what it is, the strictest figure for any of their colours holds.
void check_analysis(const Inputs& in, const NewLot& blend, std::span<const Portion> portions, Outcome& out);

}  // namespace vatwright::blend
