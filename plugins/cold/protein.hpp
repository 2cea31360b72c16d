// cold.protein: from a bench series with bentonite and a heat test to the dose for the tank.
#pragma once

#include "plugins/cold/sources.hpp"
#include "plugins/lab/agree.hpp"
#include "plugins/lab/moved_by.hpp"
#include "plugins/lab/treatment_water.hpp"

namespace vatwright::cold::protein {

inline constexpr Source heat_tests{.title = "Wine Chemistry and Biochemistry", .place = "section 6C.7.1: 80 °C, 6 h"};
inline constexpr Source slurry_source{.title = "Iowa State University Extension, bentonite trials",
                                      .place = "5 g made up to 100 mL, left overnight"};
inline constexpr Source lees_source{.title = "Wine Chemistry and Biochemistry",
                                    .place = "5 to 10 % of the wine in the lees (Tattersall 2001)"};

inline constexpr SeriesKey<MassConcentration, Turbidity> series{
    {.name = "series",
     .help = "dose of bentonite -> rise of turbidity in the heat test (after cooling, less before)",
     .unit = "NTU",
     .valid = Range{-5, 10000},
     .usual = Range{0, 200},
     .source = heat_tests,
     .x_unit = "g/hL",
     .x_valid = Range{0, 1000}}};
inline constexpr std::string_view heated_6_h = "80 °C for 6 h";
inline constexpr std::string_view heated_2_h = "80 °C for 2 h";
inline constexpr std::string_view heated_90 = "90 °C for 1 h";
inline constexpr std::string_view heatings[] = {heated_6_h, heated_2_h, heated_90};
inline constexpr Choice heating{{.name = "heat test",
                                 .help = "how the samples were heated before they were cooled and read",
                                 .choices = heatings,
                                 .source = heat_tests}};
inline constexpr Key<Turbidity> most_rise{
    {.name = "most rise",
     .help = "largest rise of a stable wine; the default belongs to 80 °C for 6 h",
     .unit = "NTU",
     .valid = Range{0.1, 50},
     .usual = Range{1, 5},
     .source = {.title = heat_tests.title, .place = "section 6C.7.1: above 2 NTU is unstable (80 °C, 6 h)"}}};
inline constexpr Key<MassConcentration> slurry{{.name = "slurry",
                                                .help = "bentonite in the slurry, mass per volume made up",
                                                .unit = "g/L",
                                                .valid = Range{10, 200},
                                                .usual = Range{40, 100},
                                                .source = slurry_source}};
inline constexpr Key<Fraction> lees{{.name = "lees",
                                     .help = "share of the wine that stays in the lees",
                                     .unit = "%",
                                     .valid = Range{0, 50},
                                     .usual = Range{5, 10},
                                     .source = lees_source}};
inline constexpr std::string_view yes = "yes";
inline constexpr std::string_view no = "no";
inline constexpr std::string_view answers[] = {yes, no};
inline constexpr Choice racked{{.name = "racked",
                                .help = "whether the next step finds the wine racked off the bentonite, so much less",
                                .choices = answers,
                                .source = lees_source}};

inline constexpr Result<MassConcentration> dose{{.name = "dose",
                                                 .help = "least tested dose that is stable, with the rounded amount",
                                                 .unit = "g/hL",
                                                 .decimals = 1,
                                                 .decided = true}};
inline constexpr Result<Volume> slurry_volume{
    {.name = "slurry volume", .help = "to be made up and poured in", .unit = "L", .decimals = 1}};
inline constexpr Result<Volume> lees_volume{
    {.name = "wine in the lees", .help = "not to be racked off clear", .unit = "L", .decimals = 0}};

inline constexpr Need inputs[] = {needs(lot::volume),        needs(series),           takes(heating, heated_6_h),
                                  takes(most_rise, "2 NTU"), takes(slurry, "50 g/L"), takes(lees, "10 %"),
                                  takes(racked, yes),        takes(lot::water_added), takes(lot::colour),
                                  takes(lot::stage),         takes(lot::sugar),       takes(lot::wine_class)};
inline constexpr std::string_view bentonite = "bentonite";
inline constexpr std::string_view reagents[] = {bentonite};
inline constexpr const ResultInfo* results[] = {&dose, &slurry_volume, &lees_volume};
inline constexpr auto changes = joined(std::array<const Input*, 2>{&lot::volume, &lot::water_added}, lab::fined_facts);
inline constexpr const LimitInfo* limits[] = {&lab::water_limit};
inline constexpr Source sources[] = {
    heat_tests,
    slurry_source,
    lees_source,
    {.title = "Esteruelas et al. 2009", .place = "heat tests against natural haze"},
    {.title = "Pocock and Waters 2006", .place = "heat tests ask for more bentonite than storage does"},
    {.title = "Weiss et al. 2001, Am. J. Enol. Vitic. 52, 275", .place = "slow stirring leaves three times the haze"}};
inline constexpr std::string_view example[] = {
    "volume=30 hL", "series={0 g/hL: 21 NTU, 20 g/hL: 9.5 NTU, 40 g/hL: 3.6 NTU, 60 g/hL: 1.2 NTU, 80 g/hL: 0.6 NTU}",
    "colour=pink", "stage=wine"};

Outcome run(const Inputs& in);

inline constexpr Model<Fraction> from_bench_to_tank{
    {.name = "bentonite from the bench to the tank",
     .help = "how its mixing and swelling in a tank differ from those of a trial",
     .unit = "%",
     .standard = 10,
     .source = {.standing = "common practice, no source"},
     .measure = "the heat test on the treated tank"}};
inline constexpr const ModelInfo* models[] = {&from_bench_to_tank};

inline constexpr Calculation calculation{.name = "protein",
                                         .help = "the least bentonite that holds the heat test, and its slurry",
                                         .inputs = inputs,
                                         .results = results,
                                         .changes = changes,
                                         .limits = limits,
                                         .reagents = reagents,
                                         .models = models,
                                         .sources = sources,
                                         .example = example,
                                         .agree = lab::disagreements,
                                         .run = run,
                                         .label = "How much bentonite does the heat test ask for?"};

}  // namespace vatwright::cold::protein
