#include "plugins/cellar/dose_law.hpp"

#include "plugins/cellar/dose_keys.hpp"
#include "plugins/lab/rounding.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cstdint>

namespace vatwright::cellar::plain_dose {
namespace {

enum class Counts : std::uint8_t { substance, what_acts, all_ammonium };

struct Ruled {
  std::string_view substance;
  const Limit<MassConcentration>* limit;
  Counts counts = Counts::substance;
};

constexpr std::string_view copper_salt = "copper sulfate pentahydrate", copper_citrate = "copper citrate";
constexpr Ruled ruled[] = {{"PVPP", &pvpp},
                           {"activated carbon", &carbon},
                           {"chitosan", &chitosan},
                           {"yeast hulls", &hulls},
                           {"yeast autolysate", &autolysate},
                           {"lysozyme", &lysozyme},
                           {copper_salt, &copper_sulfate},
                           {copper_salt, &copper_added, Counts::what_acts},
                           {copper_salt, &copper_residual, Counts::what_acts},
                           {copper_citrate, &copper_added, Counts::what_acts},
                           {copper_citrate, &copper_residual, Counts::what_acts},
                           {"tannin", &tannin},
                           {"egg albumin", &egg},
                           {"ascorbic acid", &ascorbic},
                           {"potassium sorbate", &sorbic, Counts::what_acts},
                           {"gum arabic", &gum},
                           {"carboxymethylcellulose", &cmc},
                           {"metatartaric acid", &metatartaric},
                           {"potassium polyaspartate", &polyaspartate},
                           {"potassium bitartrate", &bitartrate_seed},
                           {"calcium tartrate", &calcium_seed},
                           {"fumaric acid", &fumaric},
                           {"thiamine hydrochloride", &thiamine},
                           {"dimethyl dicarbonate", &dicarbonate},
                           {"diammonium phosphate", &phosphate},
                           {"diammonium phosphate", &ammonium_salts, Counts::all_ammonium},
                           {"ammonium sulfate", &ammonium_sulfate},
                           {"ammonium sulfate", &ammonium_salts, Counts::all_ammonium}};

MassConcentration before(const Inputs& in, const SubstanceFacts& of, const Ruled& row, double share) {
  if (row.limit == &copper_residual)
    if (const auto found = in.get(copper_found)) return *found;
  if (row.counts == Counts::all_ammonium)
    return lab::added_before(in, lot::diammonium_phosphate) + lab::added_before(in, lot::ammonium_sulfate);
  return lab::added_before(in, of.id) * share;
}

void check_share(const Inputs& in, const SubstanceFacts& of, const Ruled& row) {
  if (row.counts != Counts::what_acts || of.active_share > 0 || in.has(acts) || in.has(strength)) return;
  throw InputError(fmt::format("the rules count what acts in {}, and its label says how much that is", of.id),
                   "give 'share that acts', such as 2 %, and the dose as what acts");
}

}  // namespace

std::vector<Counted> law_of(const Inputs& in, const SubstanceFacts& of) {
  std::vector<Counted> law;
  for (const auto& row : ruled) {
    if (row.substance != of.id) continue;
    auto bound = in[*row.limit];
    if (!bound) continue;
    check_share(in, of, row);
    const double share = row.counts == Counts::what_acts && by_formula(of) ? of.active_share : 1;
    law.push_back({row.limit, std::move(bound), before(in, of, row, share), share});
  }
  return law;
}

bool passes(const std::vector<Counted>& law, MassConcentration dosed) {
  return std::any_of(law.begin(), law.end(), [&](const Counted& c) { return c.passed_by(dosed); });
}

void hold(const std::vector<Counted>& law, MassConcentration dosed, Outcome& out) {
  for (const auto& counted : law) counted.hold(dosed, 2, "give less", out);
}

void refuse(const std::vector<Counted>& law, MassConcentration wanted, Outcome& out) {
  for (const auto& counted : law) {
    const auto room = lab::down_to_step<MassConcentration>(counted.room(), 0.1 * milligram_per_litre);
    counted.hold(wanted, 2,
                 counted.forbids() ? std::string("nothing is given: it is not for this wine")
                                   : fmt::format("nothing is given. The limit allows {}{}", print(room, "g/hL", 2),
                                                 counted.before > MassConcentration{} ? " more" : ""),
                 out);
  }
}

}  // namespace vatwright::cellar::plain_dose
