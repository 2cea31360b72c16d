// sugar.convert: one reading of a must on every scale, its sugar and the alcohol that it can become.
#pragma once

#include "plugins/sugar/reading.hpp"

namespace vatwright::sugar::convert {

inline constexpr Source scales{.title = "GNU units, definitions of brix and baume",
                               .place =
                                   "SG = density over that of water at 20 °C; °Bé = 145 - 145 / SG; °Oe = "
                                   "1000 (SG - 1); °Brix = % mass of sucrose"};
inline constexpr Source refraction{.title = "fit of the ICUMSA table of refraction, 20 °C and 589.3 nm",
                                   .standing = "read in an encyclopaedia"};
inline constexpr Source jones_ough{
    .title = "Jones and Ough, Am. J. Enol. Vitic. 36(4) (1985) 268",
    .place = "% vol for 1 °Brix differs by region and season; the usual 0.55 to 0.65 from memory"};

inline constexpr Key<Density> gravity{{.name = "SG",
                                       .help = "reading on a scale of relative density 20/20",
                                       .unit = "SG",
                                       .valid = Range{1, 1.38},
                                       .usual = Range{1.03, 1.14},
                                       .source = scales}};
inline constexpr Key<Density> oechsle{{.name = "°Oe",
                                       .help = "reading in degrees Oechsle",
                                       .unit = "°Oe",
                                       .valid = Range{0, 380},
                                       .usual = Range{30, 140},
                                       .source = scales}};
inline constexpr Key<Density> baume{{.name = "°Bé",
                                     .help = "reading in degrees Baumé of modulus 145",
                                     .unit = "°Bé",
                                     .valid = Range{0, 40},
                                     .usual = Range{4, 18},
                                     .source = scales}};
inline constexpr Key<Fraction> refractive_index{{.name = "refractive index",
                                                 .help = "against air, at 589.3 nm",
                                                 .unit = "1",
                                                 .valid = Range{1.3329, 1.4656},
                                                 .usual = Range{1.34, 1.38},
                                                 .source = refraction}};

inline constexpr Result<MassFraction> soluble_solids{
    {.name = "soluble solids", .help = "at 20 °C, as sucrose", .unit = "°Brix", .decimals = 2}};
inline constexpr Result<Density> density{{.name = "density", .help = "at 20 °C", .unit = "kg/m³", .decimals = 1}};
inline constexpr Result<Density> as_gravity{
    {.name = "SG", .help = "relative density 20/20", .unit = "SG", .decimals = 4}};
inline constexpr Result<Density> as_oechsle{{.name = "°Oe", .help = "1000 (SG - 1)", .unit = "°Oe", .decimals = 1}};
inline constexpr Result<Density> as_baume{{.name = "°Bé", .help = "145 - 145 / SG", .unit = "°Bé", .decimals = 2}};
inline constexpr Result<Fraction> as_refraction{
    {.name = "refractive index", .help = "of sucrose at 20 °C and 589.3 nm", .unit = "1", .decimals = 4}};
inline constexpr Result<MassConcentration> sugar_found{
    {.name = "sugar", .help = "of the must, without what else is dissolved", .unit = "g/L", .decimals = 1}};
inline constexpr Result<Strength> potential_alcohol{
    {.name = "potential alcohol", .help = "sugar by the yield", .unit = "% vol", .decimals = 2}};

inline constexpr Need inputs[] = {takes(lot::density),
                                  takes(lot::soluble_solids),
                                  takes(gravity),
                                  takes(oechsle),
                                  takes(baume),
                                  takes(refractive_index),
                                  anew(takes(lot::temperature)),
                                  takes(instrument),
                                  takes(yield, yield_by_default),
                                  takes(non_sugar, non_sugar_by_default),
                                  takes(lot::sugar),
                                  takes(lot::ethanol)};
inline constexpr const Input* readings[] = {&lot::soluble_solids, &lot::density, &gravity, &baume, &oechsle,
                                            &refractive_index};
inline constexpr OneOf one_of[] = {readings};
inline constexpr const ResultInfo* results[] = {&soluble_solids, &density,       &as_gravity,  &as_oechsle,
                                                &as_baume,       &as_refraction, &sugar_found, &potential_alcohol};
inline constexpr const Input* changes[] = {&lot::soluble_solids, &lot::density, &lot::sugar};
inline constexpr Source sources[] = {icumsa,         scales,      refraction,     refractometer_table, hydrometer_glass,
                                     must_allowance, legal_yield, practice_yield, jones_ough};
inline constexpr std::string_view example[] = {"soluble solids=22.4 °Brix", "temperature=16 °C",
                                               "instrument=refractometer"};

Outcome run(const Inputs& in);

inline constexpr Calculation calculation{.name = "convert",
                                         .help = "a must's reading on every scale, its sugar and potential alcohol",
                                         .inputs = inputs,
                                         .one_of = one_of,
                                         .results = results,
                                         .changes = changes,
                                         .models = must_models,
                                         .sources = sources,
                                         .example = example,
                                         .measures = true,
                                         .run = run,
                                         .label = "How much sugar has the must, and how strong will the wine be?"};

}  // namespace vatwright::sugar::convert
