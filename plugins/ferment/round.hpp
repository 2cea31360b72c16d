// ferment.round: all tanks that ferment in one table for the morning round, those that want looking at first.
#pragma once

#include "plugins/ferment/keys.hpp"
#include "plugins/lab/gas.hpp"

namespace vatwright::ferment::round {

inline constexpr NameKey tank{{.name = "tank", .help = "that the reading is of"}};
inline constexpr Need columns[] = {
    needs(tank), needs(date), takes(at), needs(lot::density), takes(lot::temperature), takes(original_density)};
inline constexpr RowsKey readings{
    {.name = "readings",
     .help = "densities of all tanks, a row each; the original density once for each tank",
     .group = "readings",
     .each = columns}};

inline constexpr Result<Fraction> tanks{{.name = "tanks", .help = "on the round", .unit = "1", .decimals = 0}};
inline constexpr Result<Fraction> slow{
    {.name = "slow tanks", .help = "that stand still or are slower than their own course", .unit = "1", .decimals = 0}};

inline constexpr Need inputs[] = {needs(readings), takes(instrument), takes(dry_at, "4 g/L"),
                                  takes(lab::yield, lab::yield_by_default),
                                  takes(lab::non_sugar, lab::non_sugar_by_default)};
inline constexpr const ResultInfo* results[] = {&tanks, &slow};
inline constexpr Source sources[] = {logistic,         tabarie,    lab::must_allowance,
                                     lab::legal_yield, dry_source, still_source};
inline constexpr std::string_view example[] = {
    "readings=[{tank: T1, date: 2026-09-14, density: 1090 kg/m³}, {tank: T1, date: 2026-09-15, density: 1082 kg/m³}, "
    "{tank: T1, date: 2026-09-16, density: 1066 kg/m³}, {tank: T2, date: 2026-09-14, density: 1086 kg/m³}, {tank: T2, "
    "date: 2026-09-15, density: 1083 kg/m³}, {tank: T2, date: 2026-09-16, density: 1077 kg/m³}]",
    "instrument=corrected"};

Outcome run(const Inputs& in);

inline constexpr Calculation calculation{.name = "round",
                                         .help = "all tanks that ferment in one table, the slowest first",
                                         .inputs = inputs,
                                         .results = results,
                                         .reagents = lab::gives_off_gas,
                                         .sources = sources,
                                         .example = example,
                                         .on_lot = false,
                                         .repeatable = false,  // words
                                         .run = run,
                                         .label = "Which tank wants looking at first?",
                                         .group = "fermentation"};

}  // namespace vatwright::ferment::round
