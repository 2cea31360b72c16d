#include "plugins/lab/content_limits.hpp"

#include "host/facts/pour.hpp"

#include <string>

namespace vatwright::lab {
namespace {

// As far as the rules ask for it.
Analysis then_of(const Inputs& in, const Poured& poured) {
  Analysis now, then;
  for (const Input* fact : risen_facts)
    if (const Value* known = in.find(*fact)) now.emplace(fact->name, *known);
  for (const Input* fact : risen_facts)
    if (const auto known = now.find(fact->name); known != now.end())
      if (auto value = facts::thinned(*fact, known->second, now, poured)) then.emplace(fact->name, std::move(*value));
  return then;
}

}  // namespace

void hold_risen(const Inputs& in, const Poured& poured, std::string_view remedy, Outcome& out) {
  const Analysis then = then_of(in, poured);
  const auto hold = [&](const auto& limit, auto value, int decimals) {
    const auto bound = in.bound(limit, &then);
    if (bound && is_ceiling(bound->row.sense)) out.hold(limit, *bound, value, decimals, std::string(remedy));
  };
  each_content([&](const auto& key, const auto& limit, int decimals) {
    if (const auto at = then.find(key.name); at != then.end())
      hold(limit, decltype(in[key])::from_value(at->second.number), decimals);
  });
  const double thicker = (poured.before / poured.after).value();
  const auto citric = in.get(lot::citric_acid).value_or(added_before(in, lot::added_citric_acid)) * thicker;
  if (citric > MassConcentration{}) hold(citric_acid_limit, MassConcentration(citric), 2);
  for (std::size_t row = 0; row < dosed_limits.size(); ++row) {
    if (!is_topic_of(row, lot::counted_treatments)) continue;
    const auto& limit = *dosed_limits[row].limit;
    const MassConcentration counted = counted_before(in, limit) * thicker;
    if (counted > MassConcentration{}) hold(limit, counted, 2);
  }
}

}  // namespace vatwright::lab
