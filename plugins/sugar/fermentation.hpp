// sugar.fermentation: what has become of the sugar, from the density of the must and that of today.
#pragma once

#include "plugins/lab/gas.hpp"
#include "plugins/lab/left_must.hpp"
#include "plugins/lab/sweetness.hpp"
#include "plugins/sugar/reading.hpp"

namespace vatwright::sugar::fermentation {

inline constexpr Source still_reading{.title = "a density that falls by less than 0.5 kg/m³ in a day stands still",
                                      .standing = "common practice, no source"};

inline constexpr Key<Density> original_density{
    {.name = "original density",
     .help = "of the must before fermentation, sugar added counted in, at 20 °C",
     .unit = "kg/m³",
     .valid = Range{1000, 1400},
     .usual = Range{1050, 1140},
     .source = slip_guard}};
inline constexpr Key<Density> day_ago{{.name = "density a day ago",
                                       .help = "shows whether the fermentation still moves; read as that of today was",
                                       .unit = "kg/m³",
                                       .valid = Range{950, 1400},
                                       .usual = Range{985, 1130},
                                       .source = still_reading}};
inline constexpr Key<MassConcentration> measured_sugar{{.name = "sugar by analysis",
                                                        .help = "glucose and fructose measured today",
                                                        .unit = "g/L",
                                                        .valid = Range{0, 400},
                                                        .source = slip_guard}};

inline constexpr Result<Strength> ethanol{{.name = "ethanol", .help = "so far", .unit = "% vol", .decimals = 2}};
inline constexpr Result<MassConcentration> sugar_now{{.name = "sugar", .help = "left", .unit = "g/L", .decimals = 1}};
inline constexpr Result<Fraction> share{
    {.name = "share fermented", .help = "of the must's sugar", .unit = "%", .decimals = 1}};
inline constexpr Result<Strength> final_ethanol{
    {.name = "ethanol when dry", .help = "once no sugar is left", .unit = "% vol", .decimals = 2}};
inline constexpr Result<Density> final_density{
    {.name = "density when dry", .help = "once no sugar is left, at 20 °C", .unit = "kg/m³", .decimals = 1}};

inline constexpr Need inputs[] = {needs(original_density),
                                  anew(needs(lot::density)),
                                  takes(day_ago),
                                  takes(measured_sugar),
                                  takes(yield, yield_by_default),
                                  takes(non_sugar, non_sugar_by_default),
                                  anew(takes(lot::temperature)),
                                  takes(instrument),
                                  takes(lot::titratable_acidity),
                                  takes(lot::treated_with),
                                  takes(lot::wine_class),
                                  takes(lot::colour),
                                  takes(lot::stage)};
inline constexpr const ResultInfo* results[] = {&ethanol, &sugar_now, &share, &final_ethanol, &final_density};
inline constexpr std::array<const Input*, 7> of_the_course{
    &lot::density,     &lot::ethanol, &lot::sugar, &lot::soluble_solids, &lot::stage, &lot::assimilable_nitrogen,
    &lot::treated_with};
inline constexpr auto changes = joined(of_the_course, lab::read_of_must);
inline constexpr Source sources[] = {tabarie,        oiml,          icumsa,        must_allowance,  legal_yield,
                                     practice_yield, lab::dry_wine, still_reading, hydrometer_glass};
inline constexpr std::string_view example[] = {"original density=1092 kg/m³", "density=1010 kg/m³",
                                               "density a day ago=1021 kg/m³", "class=still", "colour=pink"};

Outcome run(const Inputs& in);

inline constexpr Calculation calculation{.name = "fermentation",
                                         .help = "how far a fermentation has come, and whether it has stopped",
                                         .inputs = inputs,
                                         .results = results,
                                         .changes = changes,
                                         .reagents = lab::gives_off_gas,
                                         .models = must_models,
                                         .sources = sources,
                                         .example = example,
                                         .run = run,
                                         .label = "How far has this fermentation come?"};

}  // namespace vatwright::sugar::fermentation
