#include "plugins/sugar/enrichment_law.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

namespace vatwright::sugar::enrichment {

Enriched so_far(const Inputs& in) {
  return {in.get(lot::strength_gained).value_or(Strength{}), in.get(lot::tirage_gained).value_or(Strength{}),
          in.get(lot::volume_gained).value_or(Fraction{})};
}

Bounds<Enriched> bounds_of(const Inputs& in, bool concentrated) {
  Bounds<Enriched> law;
  const auto add = [&](const auto& limit, auto figure) { law.add(limit, in[limit], figure); };
  add(acidified_limit, [acid = in.get(lot::acid_added).value_or(Acidity{})](const Enriched&) { return acid; });
  add(gain_limit, [](const Enriched& then) { return then.gained; });
  // The law bounds tirage liqueur by itself and does not count it as enrichment.
  const bool tirage = tirage::is_meant(in);
  if (tirage) add(tirage_limit, [](const Enriched& then) { return then.by_tirage; });
  add(total_limit, [](const Enriched& then) { return then.total; });
  if (concentrated) add(volume_limit, [](const Enriched& then) { return then.volume; });
  if (!tirage) add(solids_limit, [](const Enriched& then) { return then.dissolved; });
  return law;
}

void say_law(const Inputs& in, const Bounds<Enriched>& law, bool concentrated, Outcome& out) {
  if (law.empty()) out.note("no rule set of this recipe gives a limit for enrichment: check the law of the place");
  facts::Silence silence;
  if (in[gain_limit]) silence.ask(in, lot::strength_gained);
  if (tirage::is_meant(in) && in[tirage_limit]) silence.ask(in, lot::tirage_gained);
  if (concentrated && in[volume_limit]) silence.ask(in, lot::volume_gained);
  if (in[acidified_limit]) silence.ask(in, lot::acid_added);
  say_silent(silence, out);
}

void say_silent(const facts::Silence& silence, Outcome& out) {
  for (const auto& [who, on] : silence.entries())
    out.note(fmt::format("{}: counted as none. State what was done before, for the limits count all of it together",
                         facts::does_not_state(who, fmt::format("its '{}'", fmt::join(on, "', '")))));
}

}  // namespace vatwright::sugar::enrichment
