#include "plugins/sugar/enrichment_law.hpp"

#include "host/facts/account.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace vatwright::sugar::enrichment {
namespace {

template <class Quantity>
bool passes(const std::optional<Bound<Quantity>>& bound, Quantity value) {
  return bound && is_ceiling(bound->row.sense) && !bound->met_by(value);
}

template <class Quantity>
void hold_one(const Limit<Quantity>& limit, const std::optional<Bound<Quantity>>& bound, Quantity value,
              const std::string& remedy, Outcome& out) {
  if (bound) out.hold(limit, *bound, value, 2, remedy);
}

}  // namespace

Law::Law(const Inputs& in, bool concentrated)
    : strength_so_far_(in.get(lot::strength_gained).value_or(Strength{})),
      tirage_so_far_(in.get(lot::tirage_gained).value_or(Strength{})),
      volume_so_far_(in.get(lot::volume_gained).value_or(Fraction{})),
      acid_added_(in.get(lot::acid_added).value_or(Acidity{})),
      acidified_(in[acidified_limit]),
      gain_(in[gain_limit]),
      total_(in[total_limit]) {
  // The law bounds tirage liqueur by itself and does not count it as enrichment.
  if (tirage::is_meant(in))
    tirage_ = in[tirage_limit];
  else
    solids_ = in[solids_limit];
  if (concentrated) volume_ = in[volume_limit];
}

bool Law::forbids(const Gain& gain) const {
  return passes(acidified_, acid_added_) || passes(gain_, strength_gained(gain)) ||
         passes(tirage_, tirage_gained(gain)) || passes(total_, gain.total) || passes(volume_, volume_gained(gain)) ||
         forbids_solids(gain.dissolved);
}

bool Law::forbids_solids(MassFraction dissolved) const { return passes(solids_, dissolved); }

std::optional<Strength> Law::most_total(Strength now) const {
  if (passes(acidified_, acid_added_)) return now;
  std::optional<Strength> most;
  const auto at_most = [&](Strength value) { most = most ? std::min(*most, value) : value; };
  if (total_) at_most(total_->value);
  if (gain_) at_most(now + gain_->value - strength_so_far_);
  if (tirage_) at_most(now + tirage_->value - tirage_so_far_);
  return most;
}

std::optional<Fraction> Law::most_volume() const {
  if (!volume_) return std::nullopt;
  return std::max<Fraction>((1.0 + volume_->value) / (1.0 + volume_so_far_) - 1.0, Fraction{});
}

void Law::hold(const Gain& gain, const std::string& remedy, Outcome& out) const {
  hold_one(acidified_limit, acidified_, acid_added_, remedy, out);
  hold_one(gain_limit, gain_, strength_gained(gain), remedy, out);
  hold_one(tirage_limit, tirage_, tirage_gained(gain), remedy, out);
  hold_one(total_limit, total_, gain.total, remedy, out);
  hold_one(volume_limit, volume_, volume_gained(gain), remedy, out);
  hold_one(solids_limit, solids_, gain.dissolved, remedy, out);
}

void Law::say(const Inputs& in, Outcome& out) const {
  if (!bounds_something())
    out.note("no rule set of this recipe gives a limit for enrichment: check the law of the place");
  const std::pair<bool, const Input*> rests_on[] = {{gain_.has_value(), &lot::strength_gained},
                                                    {tirage_.has_value(), &lot::tirage_gained},
                                                    {volume_.has_value(), &lot::volume_gained},
                                                    {acidified_.has_value(), &lot::acid_added}};
  facts::Silence silence;
  for (const auto& [counts, key] : rests_on)
    if (counts) silence.ask(in, *key);
  for (const auto& [who, on] : silence.entries())
    out.note(fmt::format("{}: counted as none. State what was done before, for the limits count all of it together",
                         facts::does_not_state(who, fmt::format("its '{}'", fmt::join(on, "', '")))));
}

}  // namespace vatwright::sugar::enrichment
