#include "plugins/sugar/concentration.hpp"

#include "plugins/chemistry/must.hpp"
#include "plugins/chemistry/water.hpp"
#include "plugins/sugar/enrichment_law.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

namespace vatwright::sugar::concentration {
namespace {

// What stays, as a share of the volume before any of it.
struct Less {
  Volume now, after;
  Fraction lost_before, lost;
  Strength total_before, total;

  // Water apart, nothing goes: strength rises as the volume falls.
  Strength natural() const { return total * (1.0 - lost); }
};

Less less_of(const Inputs& in) {
  const Volume now = in[lot::volume], off = in[taken_off];
  constexpr double most_off = 0.8;
  if (off > most_off * now)
    throw InputError("that leaves less than a fifth of the lot", "look at 'water taken off' and 'volume'");
  if (!in.has(lot::sugar) && !in.has(lot::ethanol))
    throw InputError("neither sugar nor ethanol of the lot is known", "give 'sugar', 'ethanol' or both");
  Less l{now, now - off, in.get(lot::volume_lost).value_or(Fraction{}), {}, {}, {}};
  l.lost = 1.0 - (1.0 - l.lost_before) * (l.after / l.now);
  l.total_before =
      in.get(lot::ethanol).value_or(Strength{}) + in.get(lot::sugar).value_or(MassConcentration{}) / yield_of(in);
  l.total = l.total_before * (l.now / l.after);
  return l;
}

Bounds<Less> bounds_of(const Inputs& in) {
  Bounds<Less> law;
  law.add(volume_limit, in[volume_limit], [](const Less& l) { return l.lost; });
  law.add(gain_limit, in[gain_limit], [](const Less& l) -> Strength { return l.total - l.natural(); });
  // Of a wine the text bounds concentration alone; that of the zones is for must and what still ferments.
  if (in.get(lot::stage) == stage_wine) return law;
  const Strength so_far = in.get(lot::strength_gained).value_or(Strength{});
  law.add(enrichment::gain_limit, in[enrichment::gain_limit],
          [so_far](const Less& l) -> Strength { return so_far + l.total - l.total_before; });
  law.add(enrichment::total_limit, in[enrichment::total_limit], [](const Less& l) { return l.total; });
  const Acidity acid = in.get(lot::acid_added).value_or(Acidity{});
  law.add(enrichment::acidified_limit, in[enrichment::acidified_limit], [acid](const Less&) { return acid; });
  return law;
}

void say(const Inputs& in, const Bounds<Less>& law, Outcome& out) {
  if (law.empty()) out.note("no rule set of this recipe gives a limit for concentration: check the law of the place");
  facts::Silence silence;
  silence.ask(in, lot::volume_lost);
  if (in.get(lot::stage) != stage_wine) {
    silence.ask(in, lot::strength_gained);
    silence.ask(in, lot::acid_added);
  }
  if (!law.empty()) enrichment::say_silent(silence, out);
  if (in.get(lot::stage) == stage_wine)
    out.note("a wine is concentrated by cold alone where the law of the European Union holds");
  out.note(
      "reckoned as if nothing but water went: vacuum takes alcohol and aroma along, and crystals fall. Measure "
      "strength, sugar, acidity and pH afterwards");
}

}  // namespace

Outcome run(const Inputs& in) {
  Outcome out;
  const Less l = less_of(in);
  const auto law = bounds_of(in);
  out.result(volume_after, l.after);
  out.result(lost, l.lost);
  out.result(total, l.total);
  out.result(gained, l.total - l.total_before);
  constexpr const char* remedy = "nothing is taken off: take off less";
  law.hold(l, remedy, out);
  const Poured water_less{l.now, l.after, -(in[taken_off] * chemistry::water_at_20)};
  lab::hold_risen(in, water_less, remedy, out);
  if (!in.figures_only()) say(in, law, out);
  if (!out.holds()) return out;  // it is not to be done
  out.task(fmt::format("take {} of water off, and measure the volume again", print(in[taken_off], "L", 1)));
  out.change(lot::volume, l.after);
  out.carry_over(lot::volume);
  out.change(lot::volume_lost, l.lost);
  out.change(lot::strength_gained,
             in.get(lot::strength_gained).value_or(Strength{}) * (l.now / l.after) + (l.total - l.total_before));
  const Strength then = in.get(lot::ethanol).value_or(Strength{}) * (l.now / l.after);
  if (!lab::pour(in, water_less, then, out)) out.forget(lot::ph);
  return out;
}

}  // namespace vatwright::sugar::concentration
