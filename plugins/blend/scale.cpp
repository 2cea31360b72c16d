#include "plugins/blend/scale.hpp"

#include "plugins/lab/decolouring.hpp"
#include "plugins/lab/dose.hpp"
#include "plugins/lab/dosed_limits.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

namespace vatwright::blend::scale {
namespace {

constexpr std::string_view copper = "copper sulfate pentahydrate";

MassConcentration slurry_strength(const Inputs& in) { return in.get(slurry).value_or(in[stock]); }

std::string refusal(const Inputs& in, const lab::Allowance<MassConcentration>& counted) {
  if (counted.forbids()) return "nothing is weighed: it is not for this wine; take another treatment";
  const auto most = lab::down_to_step<MassConcentration>(counted.room(), 0.1 * milligram_per_litre);
  const auto allowed = lab::down_to_step<Volume>(most * in[sample] / in[stock], 0.01 * millilitre);
  return fmt::format("nothing is weighed. The limit allows {}{}: {} of this stock in the glass", print(most, "g/hL", 2),
                     counted.before > MassConcentration{} ? " more" : "", print(allowed, "mL", 2));
}

// Water that the slurry brings, counted as its whole volume.
Fraction water_of(const Inputs& in, MassConcentration dose) { return dose / slurry_strength(in); }

// What the limits rest on, and where there are none.
void say_what_the_law_counts(const Inputs& in, const lab::Law& law, Outcome& out) {
  if (law.empty())
    lab::note_unlimited(in[substance].id, out);
  else if (!lab::forbids(law))
    lab::note_not_stated(in, law, out);
}

void say_what_stays(const Inputs& in, MassConcentration given, Outcome& out) {
  if (in[substance].id == copper) {
    const MassConcentration brought = given * in[substance].active_share;
    out.note(fmt::format(
        "brings {} of copper, which makes {} with what was there, if none of it falls out; what is left in the wine "
        "has a limit of its own: measure it",
        print(brought, "mg/L", 2), print(lab::counted_before(in, lab::copper_residual) + brought, "mg/L", 2)));
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

// What is particular to a dose that was chosen at the bench.
struct Dosing : lab::Job<lab::Aim<MassConcentration>> {
  static constexpr std::string_view model = "stock × aliquot / sample, with the rounded mass",
                                    way_out = "measure out a stock by volume";
  static constexpr const auto& decided = mass;
  const lab::Law& law;

  Mass exact() const { return aim.wanted * in[lot::volume]; }
  MassConcentration reached(Mass weighed) const { return weighed / in[lot::volume]; }

  bool allowed(Mass) const { return !lab::passed_by(law, aim.wanted) && lab::colour_stays(in, in[substance].id, out); }
  bool keeps(Mass weighed) const { return !lab::passed_by(law, reached(weighed)) && !too_watery(reached(weighed)); }
  bool too_watery(MassConcentration given) const { return lab::too_much_water(in, water_of(in, given)); }
  bool permits(Mass, Mass weighed) const {
    return lab::water_allows(in, water_of(in, too_watery(aim.wanted) ? aim.wanted : reached(weighed)),
                             {"'slurry'", slurry_strength(in), "nothing is weighed"}, out);
  }
  void refuse(Mass) const {
    if (!lab::passed_by(law, aim.wanted)) return;
    for (const auto& counted : law) counted.hold(aim.wanted, 2, refusal(in, counted), out);
  }
  void hold(Mass weighed) const { lab::hold(law, reached(weighed), 2, "weigh less", out); }

  void settle(Mass weighed) const {
    const MassConcentration given = reached(weighed);
    const Volume made_up = weighed / slurry_strength(in);
    out.result(dose, given);
    out.result(mass, weighed);
    out.result(stock_volume, weighed / in[stock]);
    out.result(slurry_volume, made_up);
    if (!lab::any(weighed)) return;
    lab::keep_account(in[substance].id, given, out);
    lab::move_facts(in, in[substance], given, out);
    lab::pour_water(in, made_up / in[lot::volume], out);
  }
  void order(Mass weighed) const {
    out.additions.push_back(lab::Portion{.mass = weighed}.ordered(in[substance].id, in[lot::volume], dose.decimals));
  }
  void tell(Mass, Mass weighed) const { write_notes(in, weighed, out); }
};

}  // namespace

Outcome run(const Inputs& in) {
  Outcome out;
  const MassConcentration tried = in[stock] * in[aliquot] / in[sample];
  if (lot::is_counted(in[substance].id)) lab::check_total(in, in[substance].id, tried);
  const lab::Law law = lab::allowances_for(in, in[substance]);
  say_what_the_law_counts(in, law, out);
  const auto aim = lab::aim_from_nothing("dose of the trial", dose.unit, dose.decimals, tried, lab::left_by_balance);
  lab::come_about(Dosing{{in, out, aim, true}, law});
  lab::keep_copper(out);
  return out;
}

}  // namespace vatwright::blend::scale
