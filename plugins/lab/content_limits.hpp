// What a must or wine may hold, whatever brought it there: the topics of the rule sets on contents.
#pragma once

#include "host/plugin/joined.hpp"
#include "plugins/lab/dosed_limits.hpp"

#include <array>
#include <string_view>

namespace vatwright::lab {

inline constexpr Limit<MassConcentration> total_so2_limit{
    {.name = lot::total_so2.name, .help = "most total sulfur dioxide", .unit = "mg/L"}};
inline constexpr Limit<MassConcentration> free_so2_limit{
    {.name = lot::free_so2.name, .help = "free sulfur dioxide", .unit = "mg/L"}};
inline constexpr Limit<Acidity> volatile_acidity_limit{
    {.name = lot::volatile_acidity.name, .help = "most volatile acidity", .unit = "g/L as acetic acid"}};
inline constexpr Limit<MassConcentration> sodium_limit{
    {.name = lot::sodium.name, .help = "most sodium", .unit = "mg/L"}};
// Of some texts what may be added, of others what may be in the wine: a blend is not held to it.
inline constexpr Limit<MassConcentration> citric_acid_limit{
    {.name = lot::citric_acid.name, .help = "citric acid in the wine", .unit = "g/L"}};
inline constexpr std::array<const LimitInfo*, 4> content_topics{&total_so2_limit, &free_so2_limit,
                                                                &volatile_acidity_limit, &sodium_limit};

// `hold` gets each fact, its limit, and with how many decimals it is shown.
template <class Hold>
void each_content(Hold hold) {
  hold(lot::total_so2, total_so2_limit, 1);
  hold(lot::free_so2, free_so2_limit, 1);
  hold(lot::volatile_acidity, volatile_acidity_limit, 2);
  hold(lot::sodium, sodium_limit, 1);
}

// All that rises where a lot is concentrated: contents, and what it was treated with.
inline constexpr auto risen_topics = [] {
  constexpr auto dosed = topics_of<lot::counted_treatments>();
  return joined(content_topics, std::array<const LimitInfo*, 1>{&citric_acid_limit}, dosed);
}();
// What they and the conditions of their rows go by; a calculation that calls hold_risen() takes them.
inline constexpr std::array<const Input*, 15> risen_facts{
    &lot::total_so2,    &lot::free_so2, &lot::volatile_acidity, &lot::sodium,       &lot::citric_acid,
    &lot::treated_with, &lot::sugar,    &lot::ethanol,          &lot::stage,        &lot::wine_class,
    &lot::colour,       &lot::zone,     &lot::must_solids,      &lot::amelioration, &lot::copper};

// Holds what the lot has then against whatever bounds it from above; `remedy` is read where it does not hold.
void hold_risen(const Inputs& in, const Poured& poured, std::string_view remedy, Outcome& out);

}  // namespace vatwright::lab
