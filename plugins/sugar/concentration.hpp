// sugar.concentration: what a must or wine becomes when water is taken off it, and whether the law allows that.
#pragma once

#include "plugins/lab/content_limits.hpp"
#include "plugins/lab/thinned_ph.hpp"
#include "plugins/sugar/enrichment.hpp"
#include "plugins/sugar/keys.hpp"

namespace vatwright::sugar::concentration {

inline constexpr Key<Volume> taken_off{{.name = "water taken off",
                                        .help = "by cold, vacuum or reverse osmosis, measured at 20 °C",
                                        .unit = "L",
                                        .valid = Range{0.01, 1e7},
                                        .source = slip_guard}};

inline constexpr Limit<Fraction> volume_limit{{.name = "volume lost by concentration",
                                               .help = "most of the volume that all concentration may take off",
                                               .unit = "%"}};
inline constexpr Limit<Strength> gain_limit{{.name = "strength gained by concentration",
                                             .help = "most that concentration may raise the strength by",
                                             .unit = "% vol"}};
inline constexpr auto limits =
    joined(std::array<const LimitInfo*, 5>{&volume_limit, &gain_limit, &enrichment::gain_limit,
                                           &enrichment::total_limit, &enrichment::acidified_limit},
           lab::risen_topics);

inline constexpr Result<Volume> volume_after{
    {.name = "volume", .help = "after it, at 20 °C", .unit = "L", .decimals = 1}};
inline constexpr Result<Fraction> lost{
    {.name = "volume lost", .help = "by all concentration so far", .unit = "%", .decimals = 2}};
inline constexpr Result<Strength> total{
    {.name = "total strength", .help = "after it, with what sugar can become", .unit = "% vol", .decimals = 2}};
inline constexpr Result<Strength> gained{
    {.name = "strength gained", .help = "by this concentration", .unit = "% vol", .decimals = 2}};

inline constexpr auto inputs =
    joined(std::array{needs(lot::volume), needs(taken_off), takes(lot::sugar), takes(lot::ethanol),
                      takes(yield, yield_by_default), takes(lot::zone), takes(lot::colour), takes(lot::stage),
                      takes(lot::wine_class), takes(lot::strength_gained), takes(lot::volume_lost),
                      takes(lot::acid_added), takes(lot::total_so2), takes(lot::copper), takes(lot::treated_with),
                      takes(lot::must_solids), takes(lot::amelioration)},
           lab::ph_inputs);
inline constexpr const ResultInfo* results[] = {&volume_after, &lost, &total, &gained};
inline constexpr const Input* changes[] = {&lot::volume, &lot::ph, &lot::strength_gained, &lot::volume_lost};
inline constexpr const ModelInfo* models[] = {&sugar_to_alcohol, &lab::unmeasured_acids};
inline constexpr Source sources[] = {mass_balance, legal_yield};
inline constexpr std::string_view example[] = {"volume=50 hL", "sugar=172 g/L",         "zone=B",
                                               "stage=must",   "water taken off=400 L", "colour=red"};

Outcome run(const Inputs& in);

inline constexpr Calculation calculation{.name = "concentration",
                                         .help = "a must or wine less some of its water, held to the law",
                                         .inputs = inputs,
                                         .results = results,
                                         .changes = changes,
                                         .limits = limits,
                                         .models = models,
                                         .sources = sources,
                                         .example = example,
                                         .run = run,
                                         .label = "May I take so much water off this must or wine?"};

}  // namespace vatwright::sugar::concentration
