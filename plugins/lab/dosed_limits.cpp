#include "plugins/lab/dosed_limits.hpp"

namespace vatwright::lab {

MassConcentration counted_before(const Readings& lot, const Limit<MassConcentration>& limit) {
  if (&limit == &copper_residual)
    if (const auto found = lot.get(lot::copper)) return *found;
  MassConcentration counted{};
  for (const auto& row : dosed_limits)
    if (row.limit == &limit) counted += added_before(lot, row.substance) * row.counts;
  return counted;
}

std::vector<Allowance<MassConcentration>> allowances_for(const Inputs& in, const SubstanceFacts& substance) {
  std::vector<Allowance<MassConcentration>> out;
  for (const auto& [name, limit, counts] : dosed_limits)
    if (name == substance.id)
      if (auto bound = in[*limit]) out.push_back({limit, std::move(bound), counted_before(in, *limit), counts});
  return out;
}

void note_not_stated(const Inputs& in, const std::vector<Allowance<MassConcentration>>& law, Outcome& out) {
  note_none_added_before(in, out);
  const auto of_copper = [](const auto& row) { return row.limit == &copper_residual; };
  if (std::any_of(law.begin(), law.end(), of_copper) && !in.has(lot::copper))
    out.note(
        "how much copper the wine holds was not given: what may remain is held against what was added alone. Measure "
        "the copper first");
}

}  // namespace vatwright::lab
