#include "plugins/lab/dosed_limits.hpp"

namespace vatwright::lab {

MassConcentration counted_before(const Readings& lot, const Limit<MassConcentration>& limit) {
  MassConcentration counted{};
  for (const auto& row : dosed_limits)
    if (row.limit == &limit) counted += added_before(lot, row.substance) * row.counts;
  return counted;
}

std::vector<Allowance<MassConcentration>> allowances_for(const Inputs& in, const SubstanceFacts& substance,
                                                         std::optional<MassConcentration> copper) {
  std::vector<Allowance<MassConcentration>> out;
  for (const auto& [name, limit, counts] : dosed_limits) {
    if (name != substance.id) continue;
    auto bound = in[*limit];
    if (!bound) continue;
    const bool residual = limit == &copper_residual && copper;
    out.push_back({limit, std::move(bound), residual ? *copper : counted_before(in, *limit), counts});
  }
  return out;
}

}  // namespace vatwright::lab
