#include "plugins/lab/dosed_limits.hpp"

namespace vatwright::lab {
namespace {

// What the topic counts in one mass of the substance.
double counted_share(const Limit<MassConcentration>& limit, const SubstanceFacts& substance) {
  return counts_what_acts(&limit) && by_formula(substance) ? substance.active_share : 1;
}

// What counts with it, and was added before.
MassConcentration before_of(const Inputs& in, const Limit<MassConcentration>& limit, const SubstanceFacts& substance) {
  if (&limit == &ammonium_salts) return added_before(in, phosphate.name) + added_before(in, sulfate.name);
  return added_before(in, substance.id) * counted_share(limit, substance);
}

}  // namespace

std::vector<Allowance<MassConcentration>> allowances_for(const Inputs& in, const SubstanceFacts& substance,
                                                         std::optional<MassConcentration> copper) {
  std::vector<Allowance<MassConcentration>> out;
  for (const auto& [name, limit] : dosed_limits) {
    if (name != substance.id) continue;
    auto bound = in[*limit];
    if (!bound) continue;
    const bool residual = limit == &copper_residual && copper;
    out.push_back({limit, std::move(bound), residual ? *copper : before_of(in, *limit, substance),
                   counted_share(*limit, substance)});
  }
  return out;
}

}  // namespace vatwright::lab
