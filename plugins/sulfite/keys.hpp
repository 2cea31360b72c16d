// Inputs, limits and sources that more than one calculation of this plugin names.
#pragma once

#include "host/plugin/plugin.hpp"
#include "plugins/lab/content_limits.hpp"

namespace vatwright::sulfite {

inline constexpr Source trade_rule{.title = "trade rule", .standing = "common practice, no source"};
inline constexpr Source slip_guard = lot::guard;
inline constexpr Source oiv_molecular{.title = "OIV-MA-AS323-04C, sulfur dioxide, molecular method",
                                      .place = "Table I; mean ionic strength 0.038 mol/L"};
inline constexpr Source constant_pk1{.title = "pK1 1.81, whatever the ethanol and the temperature",
                                     .standing = "common practice, no source"};
inline constexpr Source wine_chemistry{.title = "Understanding Wine Chemistry", .place = "chapter 17"};
inline constexpr Source permittivity_source{
    .title = "Debye-Hückel constants, from the permittivity of ethanol and water (Åkerlöf 1932)",
    .standing = "from memory"};

// mg/L of molecular sulfur dioxide: 0.6 to 0.8 (Understanding Wine Chemistry, chapter 17); from 0.5 for
// red (common practice, no source).
inline constexpr Range wanted_molecular{0.5, 0.8};

inline constexpr std::string_view constant_model = "constant";
inline constexpr std::string_view oiv_model = "OIV";
inline constexpr std::string_view models[] = {constant_model, oiv_model};
inline constexpr Choice model{
    {.name = "model",
     .help = "where pK1 comes from: the trade's constant 1.81, or OIV-MA-AS323-04C by ethanol and temperature",
     .choices = models,
     .source = oiv_molecular}};

inline constexpr Key<Fraction> pk1{{.name = "pK1",
                                    .help = "first constant of sulfurous acid in this wine; overrides the model",
                                    .unit = "1",
                                    .valid = Range{1.0, 3.0},
                                    .usual = Range{1.7, 2.8},
                                    .source = slip_guard}};

inline constexpr const auto& total_limit = lab::total_so2_limit;
inline constexpr Limit<MassConcentration> declaration{
    {.name = "sulfite declaration", .help = "total sulfur dioxide that a label need not tell of", .unit = "mg/L"}};
inline constexpr const auto &free_limit = lab::free_so2_limit, &sodium_limit = lab::sodium_limit;

}  // namespace vatwright::sulfite
