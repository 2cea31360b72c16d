#include "plugins/blend/limits.hpp"

#include <algorithm>

namespace vatwright::blend {
namespace {

// The blend in each of the colours that it may be held to.
std::vector<NewLot> in_its_colours(const Inputs& in, const NewLot& blend, std::span<const Portion> portions) {
  if (in.has(lot::colour) || !blend.analysis.contains(lot::colour.name)) return {blend};
  std::vector<std::string_view> seen;
  std::vector<NewLot> out;
  for (const auto& portion : portions) {
    const auto colour = portion.lot->get(lot::colour);
    if (std::find(seen.begin(), seen.end(), colour) != seen.end()) continue;
    seen.push_back(colour);
    out.push_back(blend);
    out.back().set(lot::colour, colour);
  }
  return out;
}

template <class Quantity>
std::optional<Bound<Quantity>> strictest(const Inputs& in, const Limit<Quantity>& limit,
                                         const std::vector<NewLot>& readings) {
  std::optional<Bound<Quantity>> out;
  for (const auto& reading : readings) {
    const auto bound = in.bound(limit, &reading.analysis);
    if (!bound) continue;
    const bool stricter =
        !out || (is_ceiling(bound->row.sense) ? bound->value < out->value : bound->value > out->value);
    if (stricter) out = bound;
  }
  return out;
}

}  // namespace

void check_analysis(const Inputs& in, const NewLot& blend, std::span<const Portion> portions, Outcome& out) {
  const auto readings = in_its_colours(in, blend, portions);
  lab::each_content([&](const auto& key, const auto& limit, int decimals) {
    const auto at = blend.analysis.find(key.name);
    if (at == blend.analysis.end()) return;
    const auto bound = strictest(in, limit, readings);
    if (!bound) return;
    const char* remedy = is_ceiling(bound->row.sense)
                             ? "take less of the lots that have most of it, or join a lot that has less"
                         : key.name == lot::free_so2.name ? "sulfite.addition reckons what is missing"
                                                          : "take more of the lots that have most of it";
    out.hold(limit, *bound, decltype(bound->value)::from_value(at->second.number), decimals, remedy);
  });
}

}  // namespace vatwright::blend
