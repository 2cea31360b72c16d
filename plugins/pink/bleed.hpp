// pink.bleed: juice drawn off a red tank for pink wine, and what that does to the red.
#pragma once

#include "plugins/lab/gas.hpp"
#include "plugins/lab/must.hpp"
#include "plugins/pink/keys.hpp"

#include <array>

namespace vatwright::pink::bleed {

inline constexpr Source practice{.title = "a tenth to a quarter of the juice is bled, before fermentation",
                                 .standing = "common practice, no source"};
inline constexpr Source balance{.title = "mass balance of juice and skins", .standing = "derived"};

inline constexpr Key<Mass> skins{{.name = "skins and seeds",
                                  .help = "mass of skins and seeds in the tank, stems taken out",
                                  .unit = "kg",
                                  .valid = Range{0.1, 1e6},
                                  .source = slip_guard}};
inline constexpr Key<Fraction> bleed_share{{.name = "bleed share",
                                            .help = "part that is drawn off; say of what with 'of'",
                                            .unit = "%",
                                            .valid = Range{1, 60},
                                            .usual = Range{8, 25},
                                            .source = practice}};
inline constexpr std::string_view of_juice = "juice";
inline constexpr std::string_view of_tank = "whole tank";
inline constexpr std::string_view bases[] = {of_juice, of_tank};
inline constexpr Choice of{{.name = "of",
                            .help = "what the bleed share is a share of: the juice, or the whole tank with its skins",
                            .choices = bases,
                            .source = {.title = "both are in use", .standing = "common practice, no source"}}};
inline constexpr Key<Volume> tank_volume{{.name = "tank volume",
                                          .help = "juice, skins and seeds together, as the dipstick shows",
                                          .unit = "L",
                                          .valid = Range{0.001, 1e7},
                                          .source = slip_guard}};
inline constexpr Key<MassConcentration> target_ratio{{.name = "target skin-to-juice ratio",
                                                      .help = "skins and seeds for each litre of juice that stays",
                                                      .unit = "kg/L",
                                                      .valid = Range{0.02, 2},
                                                      .usual = Range{0.15, 0.6},
                                                      .source = slip_guard}};
inline constexpr Key<Fraction> extracted{{.name = "already extracted",
                                          .help = "part of what the skins will give that is in the juice by now",
                                          .unit = "%",
                                          .valid = Range{0, 100},
                                          .usual = Range{0, 60},
                                          .source = slip_guard}};
inline constexpr NewLotKey into{{.name = "into", .help = "name of the lot that the pink juice becomes"}};

inline constexpr Result<Volume> bled{
    {.name = "bled volume", .help = "juice for pink", .unit = "L", .decimals = 0, .decided = true}};
inline constexpr Result<Fraction> share_of_juice{
    {.name = "bled share of the juice", .help = "whatever it was given as", .unit = "%", .decimals = 1}};
inline constexpr Result<MassConcentration> ratio_before{
    {.name = "ratio before", .help = "skins and seeds for each litre", .unit = "kg/L", .decimals = 3}};
inline constexpr Result<MassConcentration> ratio_after{
    {.name = "ratio after", .help = "in the red tank", .unit = "kg/L", .decimals = 3}};
inline constexpr Result<Fraction> most_concentrated{
    {.name = "concentration at most",
     .help = "times the colour and phenolics that the red would have had, if none had left the skins yet",
     .unit = "1",
     .decimals = 2}};
inline constexpr Result<Fraction> expected_concentration{
    {.name = "concentration expected",
     .help = "the same, less what leaves with the juice; an estimate, when 'already extracted' is given",
     .unit = "1",
     .decimals = 2}};
inline constexpr Result<Strength> potential_alcohol{{.name = "potential alcohol",
                                                     .help = "of the pink juice, when its sugar is known",
                                                     .unit = "% vol",
                                                     .decimals = 1}};

inline constexpr std::array own{takes(bleed_share), takes(of),        takes(tank_volume), takes(target_ratio),
                                needs(skins),       takes(extracted), takes(into, "pink")};
// The pink juice is the red tank's juice: it takes along whatever is known of it.
inline constexpr auto inputs = [] {
  std::array<Need, own.size() + lot::keys.size()> all{};
  std::size_t at = 0;
  for (const auto& need : own) all[at++] = need;
  for (const Input* key : lot::keys) all[at++] = key->name == lot::volume.name ? needs(*key) : takes(*key);
  return all;
}();
inline constexpr const Input* decisions[] = {&bleed_share, &target_ratio};
inline constexpr OneOf one_of[] = {decisions};
inline constexpr const ResultInfo* results[] = {&bled,
                                                &share_of_juice,
                                                &ratio_before,
                                                &ratio_after,
                                                &most_concentrated,
                                                &expected_concentration,
                                                &potential_alcohol};
inline constexpr const Input* changes[] = {&lot::volume};
inline constexpr const ModelInfo* models[] = {&lab::sugar_to_alcohol};
inline constexpr Source sources[] = {
    balance, practice, {.title = "16.83 g/L of sugar for 1 % vol", .place = "AGRT1408514A, annex II B 4.4.2"}};
inline constexpr std::string_view example[] = {"volume=15 hL",  "skins and seeds=420 kg", "stage=must",
                                               "colour=red",    "sugar=228 g/L",          "bleed share=15 %",
                                               "of=whole tank", "tank volume=20 hL",      "already extracted=25 %"};

Outcome run(const Inputs& in);

inline constexpr Calculation calculation{.name = "bleed",
                                         .help = "juice bled off a red tank for pink, and what it does to the red",
                                         .inputs = inputs,
                                         .one_of = one_of,
                                         .results = results,
                                         .changes = changes,
                                         .reagents = lab::gives_off_gas,
                                         .models = models,
                                         .sources = sources,
                                         .example = example,
                                         .run = run,
                                         .label = "How much do I bleed off the red tank?"};

}  // namespace vatwright::pink::bleed
