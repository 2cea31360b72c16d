// cellar.filtration: how well a wine will pass a membrane, from readings of volume against time at one pressure.
#pragma once

#include "plugins/cellar/keys.hpp"

namespace vatwright::cellar::filtration {

inline constexpr Source index_source{.title = "Winetech Technical Yearbook 2019",
                                     .place = "page 168, T400 - 2 T200 at 2 bar"};
inline constexpr Source classes{.title = "Romat, Filtration en œnologie (2014)",
                                .place = "classes for 0.65 µm, 25 mm, 2 bar",
                                .standing = "read in a quotation"};
inline constexpr Source blocking{.title = "t/V = 1/Q0 + t/Vmax, gradual blocking of pores", .standing = "from memory"};

inline constexpr Key<Time> to_200{{.name = "time to 200 mL",
                                   .help = "at 2 bar, 0.65 µm, 25 mm",
                                   .unit = "s",
                                   .valid = Range{1, 7200},
                                   .source = slip_guard}};
inline constexpr Key<Time> to_400{
    {.name = "time to 400 mL", .help = "of the same run", .unit = "s", .valid = Range{2, 14400}, .source = slip_guard}};
inline constexpr Key<Volume> run_volume{
    {.name = "filtered", .help = "volume so far", .unit = "mL", .valid = Range{1, 20000}, .source = slip_guard}};
inline constexpr Key<Time> run_time{
    {.name = "time", .help = "since the start", .unit = "s", .valid = Range{1, 14400}, .source = slip_guard}};
inline constexpr Need columns[] = {needs(run_volume), needs(run_time)};
inline constexpr RowsKey readings{
    {.name = "readings", .help = "volume against time of one run at one pressure", .each = columns}};

inline constexpr Result<Time> index{{.name = "clogging index", .help = "T400 - 2 T200", .unit = "s", .decimals = 0}};
inline constexpr Result<Volume> largest{
    {.name = "largest volume", .help = "that this membrane would ever pass", .unit = "mL", .decimals = 0}};

inline constexpr Model<Fraction> pores_go_on_closing{
    {.name = "gradual blocking",
     .help = "the membrane goes on closing as it did during the readings",
     .unit = "%",
     .standard = 20,
     .source = {.title = "filter trials", .standing = "common practice, no source"},
     .measure = "the run for longer"}};
inline constexpr const ModelInfo* models[] = {&pores_go_on_closing};

inline constexpr Need inputs[] = {takes(to_200), takes(to_400), takes(readings), takes(lot::turbidity)};
inline constexpr const ResultInfo* results[] = {&index, &largest};
inline constexpr Source sources[] = {index_source, classes, blocking};
inline constexpr std::string_view example[] = {
    "time to 200 mL=45 s", "time to 400 mL=98 s",
    "readings=[{filtered: 480 mL, time: 120 s}, {filtered: 1000 mL, time: 300 s}]"};

Outcome run(const Inputs& in);

inline constexpr Calculation calculation{.name = "filtration",
                                         .help = "how well a wine passes a membrane, from a trial at 2 bar",
                                         .inputs = inputs,
                                         .results = results,
                                         .models = models,
                                         .sources = sources,
                                         .example = example,
                                         .run = run,
                                         .label = "Will it pass the filter?",
                                         .group = vessels_and_moves};

}  // namespace vatwright::cellar::filtration
