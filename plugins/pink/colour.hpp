// pink.colour: what a photometer's readings say of the colour.
#pragma once

#include "plugins/pink/keys.hpp"

namespace vatwright::pink::colour {

inline constexpr Source cielab{.title = "OIV-MA-AS2-11, chromatic characteristics according to CIELab",
                               .place = "D65, 10° observer, 5 nm; title and scope read",
                               .standing = "formulas from memory, as in CIE 15"};
inline constexpr Source four_wavelengths{
    .title = "Ayala, Echávarri, Negueruela, American Journal of Enology and Viticulture 48 (1997) 357",
    .place = "L*a*b* from 450, 520, 570 and 630 nm",
    .standing = "from memory"};
inline constexpr Source shares_source{.title = "Glories, shares of yellow, red and blue", .standing = "from memory"};
inline constexpr Source difference_source{
    .title = "CIEDE2000: Sharma, Wu, Dalal, Color Research and Application 30 (2005) 21"};
inline constexpr Source screen_source{.title = "IEC 61966-2-1, sRGB", .standing = "from memory"};

inline constexpr Key<Length> path{{.name = "path",
                                   .help = "the path that L*a*b* are told for; without it, the cell that was used",
                                   .unit = "mm",
                                   .valid = Range{0.1, 100},
                                   .usual = Range{1, 20},
                                   .source = intensity_method}};
inline constexpr Key<Fraction> reference_lightness{{.name = "reference L*",
                                                    .help = "lightness of the colour to compare with, at the same path",
                                                    .unit = "1",
                                                    .valid = Range{0, 100},
                                                    .source = slip_guard}};
inline constexpr Key<Fraction> reference_a{{.name = "reference a*",
                                            .help = "from green (below 0) to red, of the colour to compare with",
                                            .unit = "1",
                                            .valid = Range{-150, 150},
                                            .source = slip_guard}};
inline constexpr Key<Fraction> reference_b{{.name = "reference b*",
                                            .help = "from blue (below 0) to yellow, of the colour to compare with",
                                            .unit = "1",
                                            .valid = Range{-150, 150},
                                            .source = slip_guard}};

inline constexpr Result<Absorbance> intensity{
    {.name = "intensity", .help = "A420 + A520 + A620 through 10 mm", .unit = "AU", .decimals = 3}};
inline constexpr Result<Fraction> hue{{.name = "hue", .help = "A420 / A520", .unit = "1", .decimals = 3}};
inline constexpr Result<Fraction> yellow{
    {.name = "yellow share", .help = "of A420 in the intensity", .unit = "%", .decimals = 1}};
inline constexpr Result<Fraction> red{
    {.name = "red share", .help = "of A520 in the intensity", .unit = "%", .decimals = 1}};
inline constexpr Result<Fraction> blue{
    {.name = "blue share", .help = "of A620 in the intensity", .unit = "%", .decimals = 1}};
inline constexpr Result<Length> lab_path{
    {.name = "path of L*a*b*", .help = "L*a*b* are those of this path and no other", .unit = "mm", .decimals = 1}};
inline constexpr Result<Fraction> lightness{
    {.name = "L*", .help = "lightness: 100 is water, 0 black", .unit = "1", .decimals = 2}};
inline constexpr Result<Fraction> a_star{
    {.name = "a*", .help = "from green (below 0) to red", .unit = "1", .decimals = 2}};
inline constexpr Result<Fraction> b_star{
    {.name = "b*", .help = "from blue (below 0) to yellow", .unit = "1", .decimals = 2}};
inline constexpr Result<Fraction> c_star{
    {.name = "C*", .help = "chroma, the distance from grey", .unit = "1", .decimals = 2}};
inline constexpr Result<Fraction> h_star{
    {.name = "h", .help = "hue angle in degrees: 0 red, 90 yellow", .unit = "1", .decimals = 1}};
inline constexpr Result<Fraction> difference{
    {.name = "colour difference", .help = "CIEDE2000 to the reference", .unit = "1", .decimals = 2}};
inline constexpr Result<Absorbance> least_in_wine{{.name = "least intensity in wine",
                                                   .help = "what a settled must may keep when most is lost",
                                                   .unit = "AU",
                                                   .decimals = 2}};
inline constexpr Result<Absorbance> most_in_wine{{.name = "most intensity in wine",
                                                  .help = "what a settled must may keep when least is lost",
                                                  .unit = "AU",
                                                  .decimals = 2}};

inline constexpr Need inputs[] = {needs(lot::absorbance), takes(path),        takes(reference_lightness),
                                  takes(reference_a),     takes(reference_b), takes(lot::stage),
                                  takes(lot::free_so2)};
inline constexpr const ResultInfo* results[] = {&intensity, &hue,        &yellow,        &red,         &blue,
                                                &lab_path,  &lightness,  &a_star,        &b_star,      &c_star,
                                                &h_star,    &difference, &least_in_wine, &most_in_wine};
inline constexpr Source sources[] = {intensity_method,  cielab,        four_wavelengths, shares_source,
                                     difference_source, screen_source, colour_loss};
// An invented pink must, every 10 nm.
inline constexpr std::string_view example[] = {
    "absorbance="
    "{path: 10 mm, 380 nm: 0.301 AU, 390 nm: 0.255 AU, 400 nm: 0.218 AU, 410 nm: 0.188 AU, "
    "420 nm: 0.165 AU, 430 nm: 0.150 AU, 440 nm: 0.144 AU, 450 nm: 0.147 AU, 460 nm: 0.160 AU, "
    "470 nm: 0.181 AU, 480 nm: 0.208 AU, 490 nm: 0.237 AU, 500 nm: 0.261 AU, 510 nm: 0.277 AU, "
    "520 nm: 0.279 AU, 530 nm: 0.267 AU, 540 nm: 0.241 AU, 550 nm: 0.206 AU, 560 nm: 0.167 AU, "
    "570 nm: 0.127 AU, 580 nm: 0.092 AU, 590 nm: 0.063 AU, 600 nm: 0.042 AU, 610 nm: 0.026 AU, "
    "620 nm: 0.016 AU, 630 nm: 0.010 AU, 640 nm: 0.007 AU, 650 nm: 0.005 AU, 660 nm: 0.003 AU, "
    "670 nm: 0.003 AU, 680 nm: 0.002 AU, 690 nm: 0.002 AU, 700 nm: 0.001 AU, 710 nm: 0.001 AU, "
    "720 nm: 0.001 AU, 730 nm: 0.001 AU, 740 nm: 0.001 AU, 750 nm: 0.001 AU, 760 nm: 0.001 AU, "
    "770 nm: 0.000 AU, 780 nm: 0.000 AU}",
    "stage=must",
    "path=10 mm",
    "reference L*=89.2",
    "reference a*=17.8",
    "reference b*=0.9"};

Outcome run(const Inputs& in);

inline constexpr Calculation calculation{
    .name = "colour",
    .help = "intensity, hue and CIE L*a*b* from absorbance, and the difference to a reference",
    .inputs = inputs,
    .results = results,
    .sources = sources,
    .example = example,
    .run = run,
    .label = "What colour is it, and is it the colour I want?"};

}  // namespace vatwright::pink::colour
