// What the rule sets say of a plain dose: a row of limits for each substance, and what of the dose each counts.
#pragma once

#include "host/plugin/plugin.hpp"
#include "plugins/lab/allowance.hpp"

#include <vector>

namespace vatwright::cellar::plain_dose {

inline constexpr std::string_view most_of = "most of an addition";
constexpr Limit<MassConcentration> most(std::string_view name, std::string_view unit, std::string_view help = most_of) {
  return Limit<MassConcentration>{{.name = name, .help = help, .unit = unit}};
}
inline constexpr auto pvpp = most("PVPP", "g/hL"), carbon = most("activated carbon", "g/hL"),
                      chitosan = most("chitosan", "g/hL"), hulls = most("yeast hulls", "g/hL"),
                      lysozyme = most("lysozyme", "g/hL"), copper_sulfate = most("copper sulfate", "g/hL"),
                      tannin = most("tannin", "mg/L"), egg = most("egg albumin", "g/L"),
                      ascorbic = most("ascorbic acid", "mg/L"), gum = most("gum arabic", "g/L"),
                      cmc = most("carboxymethylcellulose", "mg/L"), metatartaric = most("metatartaric acid", "g/hL"),
                      polyaspartate = most("potassium polyaspartate", "g/hL"), fumaric = most("fumaric acid", "g/L"),
                      thiamine = most("thiamine hydrochloride", "mg/L"),
                      dicarbonate = most("dimethyl dicarbonate", "mg/L"), autolysate = most("yeast autolysate", "g/L"),
                      phosphate = most("diammonium phosphate", "g/L"),
                      ammonium_sulfate = most("ammonium sulfate", "g/L"),
                      bitartrate_seed = most("potassium bitartrate seed", "g/L"),
                      calcium_seed = most("calcium tartrate seed", "g/L");
inline constexpr auto ammonium_salts = most("ammonium salts", "g/L", "most of all ammonium salts together");
// Counted as what acts, whatever salt brings it.
inline constexpr auto sorbic = most("sorbic acid", "mg/L", "most sorbic acid in the wine"),
                      copper_added = most("copper added", "mg/L", "most copper that an addition brings"),
                      copper_residual = most("copper residual", "mg/L", "most copper in the treated wine");
inline constexpr const LimitInfo* limits[] = {&pvpp,
                                              &carbon,
                                              &chitosan,
                                              &hulls,
                                              &lysozyme,
                                              &copper_sulfate,
                                              &tannin,
                                              &egg,
                                              &ascorbic,
                                              &gum,
                                              &cmc,
                                              &metatartaric,
                                              &polyaspartate,
                                              &fumaric,
                                              &thiamine,
                                              &dicarbonate,
                                              &autolysate,
                                              &phosphate,
                                              &ammonium_sulfate,
                                              &ammonium_salts,
                                              &bitartrate_seed,
                                              &calcium_seed,
                                              &sorbic,
                                              &copper_added,
                                              &copper_residual};

using Counted = lab::Allowance<MassConcentration>;

// The rows that bind a dose of the substance. What they count is what the account of the lot keeps: the substance as it
// is weighed, where its formula says what acts in it; else what acts in the product. Throws InputError where a row
// counts what acts, and the catalogue leaves that to a label whose share the step does not say.
std::vector<Counted> law_of(const Inputs& in, const SubstanceFacts& of);

bool passes(const std::vector<Counted>& law, MassConcentration dosed);

// Holds the dose that is given; of one that is not given, says how much would be allowed.
void hold(const std::vector<Counted>& law, MassConcentration dosed, Outcome& out);
void refuse(const std::vector<Counted>& law, MassConcentration wanted, Outcome& out);

// Whether the formula of the substance says how much of it acts.
inline bool by_formula(const SubstanceFacts& of) { return of.active_share > 0 && of.active_share < 1; }

}  // namespace vatwright::cellar::plain_dose
