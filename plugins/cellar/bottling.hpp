// cellar.bottling: free sulfur dioxide that is left months after bottling, and what the filler must show for it.
#pragma once

#include "plugins/cellar/keys.hpp"

namespace vatwright::cellar::bottling {

inline constexpr Source consumption{
    .title = "2.5 mg of free sulfur dioxide for each mg of oxygen, mean of 100 wines in bottle over two years",
    .place = "Infowine, summary; 2.0 to 4.0 by what is oxidised (derived)",
    .standing = "seen in a summary"};
inline constexpr Source pickup{.title = "aim at less than 0.5 mg/L of dissolved oxygen before bottling",
                               .place = "Australian Wine Research Institute, gas adjustment"};

using OxygenRate = decltype(Mass() / Time());

inline constexpr Key<MassConcentration> dissolved{{.name = "dissolved oxygen",
                                                   .help = "in the wine as it is bottled",
                                                   .unit = "mg/L",
                                                   .valid = Range{0, 12},
                                                   .usual = Range{0.1, 2},
                                                   .source = pickup}};
inline constexpr Key<Volume> bottle{
    {.name = "bottle", .help = "volume of wine in it", .unit = "mL", .valid = Range{50, 30000}, .source = slip_guard}};
inline constexpr Key<Volume> headspace{{.name = "headspace",
                                        .help = "volume of gas under the closure",
                                        .unit = "mL",
                                        .valid = Range{0, 500},
                                        .usual = Range{2, 40},
                                        .source = slip_guard}};
inline constexpr Key<Fraction> in_headspace{{.name = "headspace oxygen",
                                             .help = "share of oxygen in that gas; air has 20.95 %",
                                             .unit = "%",
                                             .valid = Range{0, 21},
                                             .source = slip_guard}};
inline constexpr Key<OxygenRate> closure{{.name = "closure",
                                          .help = "oxygen that it lets in, by its maker's figure",
                                          .unit = "mg/d",
                                          .valid = Range{0, 0.1},
                                          .usual = Range{0.0003, 0.01},
                                          .source = practice}};
inline constexpr Key<Time> after{{.name = "after",
                                  .help = "time in bottle",
                                  .unit = "d",
                                  .valid = Range{1, 4000},
                                  .usual = Range{90, 1100},
                                  .source = slip_guard}};
inline constexpr Key<Fraction> per_oxygen{{.name = "sulfite for oxygen",
                                           .help = "free sulfur dioxide that goes with so much oxygen, by mass",
                                           .unit = "1",
                                           .valid = Range{1, 4.5},
                                           .usual = Range{2, 4},
                                           .source = consumption}};
inline constexpr Key<MassConcentration> wanted{{.name = "wanted free SO2",
                                                .help = "at the end of that time",
                                                .unit = "mg/L",
                                                .valid = Range{0, 100},
                                                .usual = Range{5, 30},
                                                .source = practice}};
inline constexpr Key<MassConcentration> gas{{.name = "carbon dioxide",
                                             .help = "dissolved, as it is bottled",
                                             .unit = "g/L",
                                             .valid = Range{0, 12},
                                             .usual = Range{0.1, 1.8},
                                             .source = practice}};

inline constexpr Result<MassConcentration> oxygen{{.name = "oxygen in all",
                                                   .help = "in a litre: dissolved, head space, and through the closure",
                                                   .unit = "mg/L",
                                                   .decimals = 2}};
inline constexpr Result<MassConcentration> used_up{
    {.name = "free SO2 used up", .help = "by that oxygen", .unit = "mg/L", .decimals = 1}};
inline constexpr Result<MassConcentration> left{
    {.name = "free SO2 after", .help = "expected at the end of that time", .unit = "mg/L", .decimals = 1}};
inline constexpr Result<MassConcentration> at_filler{
    {.name = "free SO2 at the filler", .help = "for what is wanted at the end", .unit = "mg/L", .decimals = 1}};

inline constexpr Limit<MassConcentration> gas_limit{
    {.name = "carbon dioxide of still wine", .help = "most dissolved carbon dioxide", .unit = "g/L"}};
inline constexpr const LimitInfo* limits[] = {&gas_limit};

inline constexpr std::string_view usual_per_oxygen = "2.5";
inline constexpr Model<Fraction> oxygen_to_sulfite{
    {.name = "sulfite for oxygen",
     .help = "free sulfur dioxide that goes with so much oxygen, where no other figure than the mean was given",
     .unit = "1",
     .standard = 0.58,
     .source = {.title = consumption.title,
                .place = "2.0 to 4.0 by what is oxidised, equally likely in between (JCGM 100, 4.3.7)",
                .standing = "derived"},
     .measure = "free sulfur dioxide in a few bottles after three months"}};
inline constexpr Model<Fraction> closures_differ{
    {.name = "the closure",
     .help = "oxygen that it lets in: its maker's figure is a mean, and 0.3 to 3 mg in a year are in use",
     .unit = "%",
     .standard = 50,
     .source = practice,
     .measure = "oxygen that the closure lets in"}};
inline constexpr const ModelInfo* models[] = {&oxygen_to_sulfite, &closures_differ};

inline constexpr Need inputs[] = {needs(lot::free_so2),
                                  needs(dissolved),
                                  takes(headspace, "15 mL"),
                                  takes(in_headspace, "20.95 %"),
                                  takes(bottle, "750 mL"),
                                  takes(closure, "0.003 mg/d"),
                                  takes(after, "365 d"),
                                  takes(per_oxygen, usual_per_oxygen),
                                  takes(wanted),
                                  takes(gas),
                                  takes(lot::wine_class)};
inline constexpr const ResultInfo* results[] = {&oxygen, &used_up, &left, &at_filler};
inline constexpr Source sources[] = {
    consumption, pickup, {.title = "oxygen of a gas at 20 °C and 1.013 bar, as an ideal one", .standing = "derived"}};
inline constexpr std::string_view example[] = {"free SO2=32 mg/L", "dissolved oxygen=0.6 mg/L",
                                               "headspace=15 mL",  "headspace oxygen=3 %",
                                               "after=540 d",      "wanted free SO2=15 mg/L"};

Outcome run(const Inputs& in);

inline constexpr Calculation calculation{
    .name = "bottling",
    .help = "free sulfur dioxide left months after bottling, by oxygen, and the target at the filler",
    .inputs = inputs,
    .results = results,
    .limits = limits,
    .models = models,
    .sources = sources,
    .example = example,
    .run = run,
    .label = "What will protect it in bottle?",
    .group = "bottling"};

}  // namespace vatwright::cellar::bottling
