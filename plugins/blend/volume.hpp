// blend.volume: what a tank really holds, at 20 °C, less what is lost, and the bottles that it fills.
#pragma once

#include "plugins/blend/keys.hpp"

namespace vatwright::blend::volumes {

inline constexpr Key<Temperature> reference{{.name = "reference",
                                             .help = "temperature that the volume is reckoned to",
                                             .unit = "°C",
                                             .valid = Range{0, 40},
                                             .usual = Range{15, 20},
                                             .source = oiml}};
inline constexpr Key<Volume> ullage{{.name = "ullage",
                                     .help = "empty head space, where 'volume' is that of the full vessel",
                                     .unit = "L",
                                     .valid = Range{0, 1e7},
                                     .source = slip_guard}};
inline constexpr Key<Fraction> losses{{.name = "losses",
                                       .help = "part of the wine that stays in lees, filter and pipes",
                                       .unit = "%",
                                       .valid = Range{0, 60},
                                       .usual = Range{0, 15},
                                       .source = common_practice}};
inline constexpr std::string_view formats[] = {"187 mL", "375 mL", "500 mL", "750 mL", "1 L",
                                               "1.5 L",  "3 L",    "5 L",    "6 L"};
inline constexpr Choice format{
    {.name = "format", .help = "the bottle that is filled", .choices = formats, .source = common_practice}};

inline constexpr Result<Volume> at_reference{
    {.name = "volume", .help = "of the wine at the reference temperature", .unit = "hL", .decimals = 3}};
inline constexpr Result<Volume> net{{.name = "net volume", .help = "less the losses", .unit = "hL", .decimals = 3}};
inline constexpr Result<Fraction> bottles{
    {.name = "bottles", .help = "full ones of the format", .unit = "1", .decimals = 0}};
inline constexpr Result<Volume> rest{{.name = "rest", .help = "less than one bottle", .unit = "mL", .decimals = 0}};

inline constexpr Model<Fraction> expands_alone{
    {.name = "the expansion",
     .help = "of ethanol and water, or sucrose and water, for that of the lot in its vessel, which expands too",
     .unit = "%",
     .standard = 12,
     .source = {.title = "extract, and steel's 0.5e-4 for a kelvin beside a wine's 2.5e-4: up to a fifth more or less, "
                         "equally likely in between (JCGM 100, 4.3.7)",
                .standing = "from memory"},
     .measure = "the volume at the reference temperature"}};
inline constexpr const ModelInfo* models[] = {&expands_alone};

inline constexpr Need inputs[] = {needs(lot::volume),   needs(lot::temperature),    takes(reference, "20 °C"),
                                  takes(lot::ethanol),  takes(lot::soluble_solids), takes(ullage, "0 L"),
                                  takes(losses, "0 %"), takes(format, "750 mL")};
inline constexpr const ResultInfo* results[] = {&at_reference, &net, &bottles, &rest};
inline constexpr std::string_view example[] = {"volume=48.0 hL", "temperature=12 °C", "ethanol=12.5 % vol",
                                               "ullage=40 L", "losses=1.5 %"};
inline constexpr Source sucrose{.title = "ICUMSA SPS-4, density of sucrose solutions", .standing = "seen as excerpts"};
inline constexpr Source sources[] = {oiml, sucrose, common_practice};

Outcome run(const Inputs& in);

inline constexpr Calculation calculation{.name = "volume",
                                         .help = "volume at 20 °C, net of losses, and the bottles that it fills",
                                         .inputs = inputs,
                                         .results = results,
                                         .models = models,
                                         .sources = sources,
                                         .example = example,
                                         .run = run,
                                         .label = "How many bottles will it fill?"};

}  // namespace vatwright::blend::volumes
