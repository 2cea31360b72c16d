#include "plugins/cellar/dose_law.hpp"

#include "plugins/cellar/dose_keys.hpp"
#include "plugins/lab/rounding.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

namespace vatwright::cellar::plain_dose {
namespace {

void check_share(const Inputs& in, const SubstanceFacts& of, const LimitInfo* limit) {
  if (!lab::counts_what_acts(limit) || of.active_share > 0 || in.has(acts) || in.has(strength)) return;
  throw InputError(fmt::format("the rules count what acts in {}, and its label says how much that is", of.id),
                   "give 'share that acts', such as 2 %, and the dose as what acts");
}

}  // namespace

lab::Law law_of(const Inputs& in, const SubstanceFacts& of) {
  auto law = lab::allowances_for(in, of);
  for (const auto& row : law) check_share(in, of, row.limit);
  return law;
}

void refuse(const lab::Law& law, MassConcentration wanted, Outcome& out) {
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
