#include "plugins/blend/scale.hpp"

#include "plugins/lab/decolouring.hpp"
#include "plugins/lab/dose.hpp"
#include "plugins/lab/dosed_limits.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <vector>

namespace vatwright::blend::scale {
namespace {

constexpr std::string_view copper = "copper sulfate pentahydrate";

using Counted = lab::Allowance<MassConcentration>;
using Law = std::vector<Counted>;

MassConcentration added_before(const Inputs& in) { return lab::added_before(in, in[substance].id); }

// Copper of the wine: as it was found, else what earlier steps brought of it.
MassConcentration copper_before(const Inputs& in) {
  return in.get(lot::copper).value_or(added_before(in) * in[substance].active_share);
}

bool passes(const Law& law, MassConcentration dose) {
  return std::any_of(law.begin(), law.end(), [&](const Counted& c) { return c.passed_by(dose); });
}

MassConcentration slurry_strength(const Inputs& in) { return in.get(slurry).value_or(in[stock]); }

void write_results(const Inputs& in, Mass weighed, Outcome& out) {
  const MassConcentration given = weighed / in[lot::volume];
  const Volume made_up = weighed / slurry_strength(in);
  out.result(dose, given);
  out.result(mass, weighed);
  out.result(stock_volume, weighed / in[stock]);
  out.result(slurry_volume, made_up);
  if (!(weighed > Mass{})) return;
  if (const auto& id = in[substance].id; lot::is_counted(id))
    out.change(lot::treated_with, in.with(lot::treated_with, id, given));
  lab::move_facts(in, in[substance], given, out);
  lab::pour_water(in, made_up / in[lot::volume], out);
}

std::string refusal(const Inputs& in, const Counted& counted) {
  if (counted.forbids()) return "nothing is weighed: it is not for this wine; take another treatment";
  const auto most = lab::down_to_step<MassConcentration>(counted.room(), 0.1 * milligram_per_litre);
  const auto allowed = lab::down_to_step<Volume>(most * in[sample] / in[stock], 0.01 * millilitre);
  return fmt::format("nothing is weighed. The limit allows {}{}: {} of this stock in the glass", print(most, "g/hL", 2),
                     counted.before > MassConcentration{} ? " more" : "", print(allowed, "mL", 2));
}

// Water that the slurry brings, counted as its whole volume.
Fraction water_of(const Inputs& in, MassConcentration dose) { return dose / slurry_strength(in); }

bool water_allows(const Inputs& in, MassConcentration dose, Outcome& out) {
  return lab::water_allows(in, water_of(in, dose), {"'slurry'", slurry_strength(in), "nothing is weighed"}, out);
}

// What the limits rest on, and where there are none.
void say_what_the_law_counts(const Inputs& in, const Law& law, Outcome& out) {
  if (law.empty())
    out.note("no rule set of this recipe gives a limit for " + in[substance].id +
             ": see its text whether it may be used at all");
  else if (std::none_of(law.begin(), law.end(), [](const auto& l) { return l.forbids(); }))
    lab::note_none_added_before(in, out);
}

void say_what_stays(const Inputs& in, MassConcentration given, Outcome& out) {
  if (in[substance].id == copper) {
    const MassConcentration brought = given * in[substance].active_share;
    out.note(fmt::format(
        "brings {} of copper, which makes {} with what was there, if none of it falls out; what is left in the wine "
        "has a limit of its own: measure it",
        print(brought, "mg/L", 2), print(copper_before(in) + brought, "mg/L", 2)));
  }
  if (in[substance].id == lab::fumaric.name)
    out.note("it is an acid: pH and titratable acidity move too, and are no longer as they were measured");
  if (const auto most = in[tannin_residual]; most && in[substance].id == lab::tannin.name)
    out.note(fmt::format("the wine may hold {} of tannin, as gallic acid: measure it [{}]",
                         print(most->value, "g/L", 1), most->row.source));
}

void write_notes(const Inputs& in, Mass weighed, Outcome& out) {
  const Volume made_up = weighed / slurry_strength(in);
  const Shown amount = readable(weighed), volume = readable(made_up);
  out.note(fmt::format("make {:g} {} up to {:.4g} {} ({}); in water it adds {} of the volume of the wine",
                       amount.number, amount.unit, volume.number, volume.unit, print(slurry_strength(in), "g/L", 1),
                       print(made_up / in[lot::volume], "%", 2)));
  const double diluted = (in[aliquot] / in[sample]).value();
  constexpr double much = 0.03;
  if (diluted > much)
    out.note(fmt::format("the stock diluted the glass by {}: try again with a stronger one before you trust the taste",
                         print(Fraction(diluted), "%", 1)));
  say_what_stays(in, weighed / in[lot::volume], out);
  out.note("use the same product, water and mixing as at the bench, and look at the tank before you move it on");
}

// What is particular to a dose that was chosen at the bench (lab::come_about).
struct Dosing {
  const Inputs& in;
  const Law& law;
  MassConcentration tried;
  Outcome& out;

  MassConcentration given(Mass weighed) const { return weighed / in[lot::volume]; }

  bool enough() const { return false; }
  void leave() {}

  MassConcentration exact() const { return tried; }
  bool allowed(MassConcentration exact) {
    if (passes(law, exact) || !lab::colour_stays(in, in[substance].id, out)) return false;
    const Mass weighed = lab::nearest_else_down([&](lab::Rounding rounding) { return measured(exact, rounding); },
                                                [&](Mass shown) { return keeps(exact, shown); });
    return water_allows(in, lab::too_much_water(in, water_of(in, exact)) ? exact : given(weighed), out);
  }
  void refuse(MassConcentration exact) {
    write_results(in, {}, out);
    if (!passes(law, exact)) return;
    for (const auto& counted : law) counted.hold(exact, 2, refusal(in, counted), out);
  }

  Mass measured(MassConcentration exact, lab::Rounding rounding) const {
    return lab::rounded<Mass>(exact * in[lot::volume], rounding, to_balance);
  }
  bool keeps(MassConcentration, Mass weighed) const {
    return !passes(law, given(weighed)) && !lab::too_much_water(in, water_of(in, given(weighed)));
  }
  Check closing(MassConcentration exact, Mass weighed) const {
    return lab::aim_from_nothing("dose of the trial", dose.unit, dose.decimals, exact, lab::left_by_balance)
        .closing(exact, given(weighed), "stock × aliquot / sample, with the rounded mass",
                 "measure out a stock by volume");
  }
  void withhold(Check closing) {
    out.checks.push_back(std::move(closing));
    write_results(in, {}, out);
  }

  void give(MassConcentration, Mass weighed, Check closing) {
    out.checks.push_back(std::move(closing));
    for (const auto& counted : law) counted.hold(given(weighed), 2, "weigh less", out);
    write_results(in, weighed, out);
    out.additions.push_back(
        {.substance = in[substance].id, .mass = weighed, .dose = figure(given(weighed), dose.unit, dose.decimals)});
    write_notes(in, weighed, out);
  }
};

}  // namespace

Outcome run(const Inputs& in) {
  Outcome out;
  const MassConcentration tried = in[stock] * in[aliquot] / in[sample];
  if (const auto weighed = in.decided(mass)) {
    write_results(in, *weighed, out);
    return out;
  }
  if (lot::is_counted(in[substance].id)) lab::check_total(in, in[substance].id, tried);
  const Law law = lab::allowances_for(in, in[substance], in.get(lot::copper));
  say_what_the_law_counts(in, law, out);
  lab::come_about(Dosing{in, law, tried, out});
  return out;
}

}  // namespace vatwright::blend::scale
