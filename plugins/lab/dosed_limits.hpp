// What the rule sets bound of what is weighed straight into a lot: each topic beside the substances that it is for.
#pragma once

#include "plugins/lab/allowance.hpp"
#include "units/atomic_weights.hpp"

#include <algorithm>
#include <array>
#include <optional>
#include <span>
#include <string_view>
#include <vector>

namespace vatwright::lab {

inline constexpr std::string_view most_of = "most of an addition";
constexpr Limit<MassConcentration> most(std::string_view name, std::string_view unit, std::string_view help = most_of) {
  return Limit<MassConcentration>{{.name = name, .help = help, .unit = unit}};
}

inline constexpr auto pvpp = most("PVPP", "g/hL"), pvi_pvp = most("PVI/PVP", "mg/L"),
                      carbon = most("activated carbon", "g/hL"), chitosan = most("chitosan", "g/hL"),
                      hulls = most("yeast hulls", "g/hL"),
                      autolysate = most("yeast autolysate", "g/L", "most yeast autolysate"),
                      lysozyme = most("lysozyme", "g/hL"), tannin = most("tannin", "mg/L"),
                      egg_albumin = most("egg albumin", "g/L"), ascorbic = most("ascorbic acid", "mg/L"),
                      fumaric = most("fumaric acid", "mg/L"), gum = most("gum arabic", "g/L"),
                      cmc = most("carboxymethylcellulose", "mg/L"), metatartaric = most("metatartaric acid", "g/hL"),
                      polyaspartate = most("potassium polyaspartate", "g/hL"),
                      thiamine = most("thiamine hydrochloride", "mg/L", "most thiamine hydrochloride"),
                      silica = most("silica sol", "g/L", "most of a sol of 30 % silica"),
                      plant_protein = most("plant protein", "g/hL", "most of all plant protein together"),
                      dicarbonate = most("dimethyl dicarbonate", "mg/L"),
                      bitartrate_seed = most("potassium bitartrate seed", "g/L"),
                      calcium_seed = most("calcium tartrate seed", "g/hL"),
                      phosphate = most("diammonium phosphate", "g/L", "most diammonium phosphate"),
                      sulfate = most("ammonium sulfate", "g/L", "most ammonium sulfate"),
                      ammonium_salts = most("ammonium salts", "g/L", "most of all ammonium salts together"),
                      copper_sulfate = most("copper sulfate", "g/hL");
// Counted as the acid, and as the copper, whatever salt brings it.
inline constexpr auto sorbic = most("sorbic acid", "mg/L", "most sorbic acid in the wine"),
                      copper_added = most("copper added", "mg/L", "most copper that an addition brings"),
                      copper_residual = most("copper residual", "mg/L", "most copper in the treated wine");

struct DosedLimit {
  std::string_view substance;
  const Limit<MassConcentration>* limit;
  double counts = 1;  // what the topic counts in one mass of what the account of the lot keeps
};
// By the formulas of the catalogue. The silica is that of the sol that the rows are written of (27 CFR 24.246).
inline constexpr double sorbic_in_sorbate = (molar_mass("C6H8O2") / molar_mass("C6H7KO2")).value(),
                        copper_in_sulfate = (molar_mass("Cu") / molar_mass("CuSO4·5H2O")).value(),
                        sol_for_silica = 1 / 0.30;
inline constexpr std::array<DosedLimit, 32> dosed_limits{
    {{"PVPP", &pvpp},
     {"PVI/PVP", &pvi_pvp},
     {"activated carbon", &carbon},
     {"chitosan", &chitosan},
     {"silica sol", &silica, sol_for_silica},
     {lot::plant_proteins[0], &plant_protein},
     {lot::plant_proteins[1], &plant_protein},
     {"yeast hulls", &hulls},
     {"yeast autolysate", &autolysate},
     {"lysozyme", &lysozyme},
     {"tannin", &tannin},
     {"egg albumin", &egg_albumin},
     {"ascorbic acid", &ascorbic},
     {"potassium sorbate", &sorbic, sorbic_in_sorbate},
     {"fumaric acid", &fumaric},
     {"gum arabic", &gum},
     {"carboxymethylcellulose", &cmc},
     {"metatartaric acid", &metatartaric},
     {"potassium polyaspartate", &polyaspartate},
     {"thiamine hydrochloride", &thiamine},
     {"dimethyl dicarbonate", &dicarbonate},
     {"potassium bitartrate", &bitartrate_seed},
     {"calcium tartrate", &calcium_seed},
     {"diammonium phosphate", &phosphate},
     {"diammonium phosphate", &ammonium_salts},
     {"ammonium sulfate", &sulfate},
     {"ammonium sulfate", &ammonium_salts},
     {"copper sulfate pentahydrate", &copper_sulfate},
     {"copper sulfate pentahydrate", &copper_added, copper_in_sulfate},
     {"copper sulfate pentahydrate", &copper_residual, copper_in_sulfate},
     {"copper citrate", &copper_added},
     {"copper citrate", &copper_residual}}};

// Whether a row is the first of its topic that one of the substances meets.
constexpr bool is_topic_of(std::size_t row, std::span<const std::string_view> substances) {
  const auto met = [&](const DosedLimit& one) {
    return std::find(substances.begin(), substances.end(), one.substance) != substances.end();
  };
  for (std::size_t before = 0; before < row; ++before)
    if (dosed_limits[before].limit == dosed_limits[row].limit && met(dosed_limits[before])) return false;
  return met(dosed_limits[row]);
}

// The topics of a calculation's list of substances, each once.
template <const auto& substances>
constexpr auto topics_of() {
  constexpr auto count = [] {
    std::size_t topics = 0;
    for (std::size_t row = 0; row < dosed_limits.size(); ++row) topics += is_topic_of(row, substances) ? 1 : 0;
    return topics;
  }();
  std::array<const LimitInfo*, count> out{};
  std::size_t at = 0;
  for (std::size_t row = 0; row < dosed_limits.size(); ++row)
    if (is_topic_of(row, substances)) out[at++] = dosed_limits[row].limit;
  return out;
}

// Whether the topic counts what acts in a substance, whatever salt brings it.
constexpr bool counts_what_acts(const LimitInfo* limit) {
  return limit == &sorbic || limit == &copper_added || limit == &copper_residual || limit == &silica;
}

// Whether the formula of the substance says how much of it acts.
inline bool by_formula(const SubstanceFacts& of) { return of.active_share > 0 && of.active_share < 1; }

// What counts under a topic: of what may remain in the wine what was found of it, else, as of all others, what the lot
// was treated with so far.
MassConcentration counted_before(const Readings& lot, const Limit<MassConcentration>& limit);

// What the rules of the recipe still allow of it; those that say nothing are left out. A calculation that doses copper
// takes lot::copper.
std::vector<Allowance<MassConcentration>> allowances_for(const Inputs& in, const SubstanceFacts& substance);

// On what those rest that nobody stated, and what nobody measured.
void note_not_stated(const Inputs& in, const std::vector<Allowance<MassConcentration>>& law, Outcome& out);

}  // namespace vatwright::lab
