// label.strength: what alcoholic strength may be printed.
#pragma once

#include "plugins/label/keys.hpp"

namespace vatwright::label::strength {

inline constexpr Key<Strength> stated{{.name = "stated strength",
                                       .help = "what the label is to say, or says",
                                       .unit = "% vol",
                                       .valid = Range{0, 60},
                                       .usual = Range{5, 22},
                                       .group = "label",
                                       .source = lot::guard}};

inline constexpr Limit<Strength> step{
    {.name = "label strength step", .help = "the strength is printed in steps of this", .unit = "% vol"}};
inline constexpr Limit<Strength> tolerance{{.name = "label strength tolerance",
                                            .help = "most by which the printed and the found strength differ",
                                            .unit = "% vol"}};
inline constexpr Limit<Strength> class_line{{.name = "label strength tax class",
                                             .help = "a strength found on one side of it is not printed on the other",
                                             .unit = "% vol"}};

inline constexpr Limit<Strength> total{
    {.name = "total strength of wine", .help = "most of actual and potential strength together", .unit = "% vol"}};

inline constexpr Result<Strength> nearest{
    {.name = "nearest", .help = "that may be printed, to the found strength", .unit = "% vol"}};
inline constexpr Result<Strength> least{{.name = "least", .help = "that may be printed", .unit = "% vol"}};
inline constexpr Result<Strength> most{{.name = "most", .help = "that may be printed", .unit = "% vol"}};

inline constexpr Need inputs[] = {
    needs(lot::ethanol), takes(stated),    takes(lot::wine_class), takes(lot::stage),
    takes(lot::sugar),   takes(lot::zone), takes(lot::colour),     takes(lot::strength_gained)};
inline constexpr const ResultInfo* results[] = {&nearest, &least, &most};
inline constexpr const LimitInfo* limits[] = {&step, &tolerance, &class_line, &total};
inline constexpr Source sources[] = {
    {.title = "the steps and tolerances of the rule sets; without one, steps of 0.1 and a tolerance of 0.5 % vol",
     .standing = "common practice, no source"},
    {.title = "French order of 18 August 2014 (AGRT1408514A)",
     .place = "16.83 g/L of sugar for 1 % vol, of what may still ferment"}};
inline constexpr std::string_view example[] = {"ethanol=12.63 % vol", "class=still", "stage=wine"};

Outcome run(const Inputs& in);

inline constexpr Calculation calculation{.name = "strength",
                                         .help = "what alcoholic strength may be printed, by steps and tolerance",
                                         .inputs = inputs,
                                         .results = results,
                                         .limits = limits,
                                         .sources = sources,
                                         .example = example,
                                         .repeatable = false,  // it goes in steps
                                         .run = run,
                                         .label = "Which strength may the label state?",
                                         .group = "label"};

}  // namespace vatwright::label::strength
