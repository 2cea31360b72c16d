#include "plugins/cold/protein.hpp"

#include "plugins/lab/dose.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace vatwright::cold::protein {
namespace {

struct Trial {
  MassConcentration dose;
  Turbidity rise;
};

bool holds_the_test(const Trial& trial, Turbidity most) { return trial.rise <= most + lab::hair * most; }

std::vector<Trial> trials_of(const Inputs& in) {
  std::vector<Trial> trials;
  for (const auto& [x, y] : in[series].points)
    trials.push_back({coherent<MassConcentration>(x), coherent<Turbidity>(y)});
  // A wine that holds the test by itself needs no series.
  const auto needs_none = [&](const Trial& only) {
    return only.dose == MassConcentration{} && holds_the_test(only, in[most_rise]);
  };
  if (trials.size() < 2 && !(trials.size() == 1 && needs_none(trials.front())))
    throw InputError("a series needs two doses or more", "such as '{0 g/hL: 18 NTU, 40 g/hL: 1.1 NTU}'");
  return trials;
}

// The first trial from which on every one holds; one past the last when none does.
std::size_t least_stable(const std::vector<Trial>& trials, Turbidity most) {
  std::size_t at = trials.size();
  while (at > 0 && holds_the_test(trials[at - 1], most)) --at;
  return at;
}

// Rises that grow with the dose by more than the criterion are no clean series.
bool ragged(const std::vector<Trial>& trials, Turbidity most) {
  return std::adjacent_find(trials.begin(), trials.end(), [&](const Trial& less, const Trial& more) {
           return more.rise - less.rise > 0.5 * most;
         }) != trials.end();
}

void stable_check(const Inputs& in, const Trial& trial, bool holds, Outcome& out) {
  out.checks.push_back(
      {.name = fmt::format("heat test, {}, at {} of bentonite", in[heating], print(trial.dose, "g/hL", 1)),
       .holds = holds,
       .value = figure(trial.rise, "NTU", 1),
       .limit = figure(in[most_rise], "NTU", 1),
       .relation = "at most",
       .source = in[heating] == heated_6_h ? "Wine Chemistry and Biochemistry, section 6C.7.1: above 2 NTU is unstable"
                                           : "the criterion of 80 °C for 6 h, carried over: common practice, no source",
       .remedy =
           holds ? "" : "nothing was dosed: no dose of this series holds. Test higher ones, or another bentonite"});
}

// Where the straight line between the trials around the criterion meets it.
void between_trials(const Inputs& in, const std::vector<Trial>& trials, std::size_t at, Outcome& out) {
  if (at == 0 || trials[at - 1].rise <= in[most_rise]) return;
  const Trial& low = trials[at - 1];
  const Trial& high = trials[at];
  const auto into = (low.rise - in[most_rise]) / (low.rise - high.rise);
  const MassConcentration there = low.dose + into * (high.dose - low.dose);
  out.opinions.push_back({.name = "dose on the straight line between the two trials around the criterion",
                          .here = figure(high.dose, "g/hL", 1),
                          .there = figure(there, "g/hL", 1),
                          .matters = high.dose - there > 0.2 * high.dose,
                          .source = "interpolation; no trial was made there, so it wants one"});
}

Volume in_the_lees(const Inputs& in) { return in[lot::volume] * in[lees]; }

// The water of the slurry, counted as its whole volume: the clay takes 2 % of it.
Fraction water_of(const Inputs& in, Mass amount) { return amount / in[slurry] / in[lot::volume]; }

// Clear wine, with the water of the slurry.
Volume racked_volume(const Inputs& in, Mass amount) {
  return in[lot::volume] * (1.0 + water_of(in, amount)) - in_the_lees(in);
}

void fine_with(const Inputs& in, Mass amount, Outcome& out) {
  const bool treated = amount > Mass{};
  out.result(dose, amount / in[lot::volume]);
  out.result(slurry_volume, amount / in[slurry]);
  out.result(lees_volume, treated ? in_the_lees(in) : Volume{});
  if (!treated) return;
  lab::pour_water(in, water_of(in, amount), out);
  lab::forget_fined(in, out);
  if (in[racked] == yes) {
    out.change(lot::volume, racked_volume(in, amount));
    out.carry_over(lot::volume);
  }
}

void advice(const Inputs& in, const std::vector<Trial>& trials, Outcome& out) {
  if (ragged(trials, in[most_rise]))
    out.note("the haze does not fall evenly with the dose: repeat the series before you trust it");
  out.note(
      "heat tests ask for more than storage does (Pocock and Waters 2006), and bentonite takes colour and aroma: the "
      "least dose that holds is enough, and a finer series around it may find less");
  out.note(
      "mix in the cellar as on the bench, with the same bentonite and slurry: slow stirring left three times the haze "
      "(Weiss et al. 2001). The heat test on the racked wine settles it");
}

void say_what_follows(const Inputs& in, Mass amount, Outcome& out) {
  const auto slurry_made = print(amount / in[slurry], "L", 1);
  out.note(
      fmt::format("{} of bentonite made up to {} of slurry; count on {} of wine in the lees, and on {} of water "
                  "in the wine",
                  print(amount, readable(amount).unit, 2), slurry_made, print(in_the_lees(in), "L", 0), slurry_made));
  if (in[racked] == yes)
    out.note(fmt::format(
        "the lot goes on as racked, with {}: measure the volume before the next dose. The water of the slurry, {} of "
        "the wine, is in its volume and thins its analysis",
        print(racked_volume(in, amount), "L", 0), print(water_of(in, amount), "%", 2)));
}

// The trial whose dose is in the tank by now.
const Trial& trial_of(const std::vector<Trial>& trials, MassConcentration held) {
  const auto off = [held](const Trial& trial) { return std::abs((trial.dose - held).value()); };
  return *std::min_element(trials.begin(), trials.end(),
                           [&](const Trial& a, const Trial& b) { return off(a) < off(b); });
}

// What is particular to a dose of bentonite.
struct Dosing : lab::Job<lab::Aim<MassConcentration>> {
  static constexpr const auto& decided = dose;
  static constexpr std::string_view model = "the rounded amount in the lot",
                                    way_out = "make a larger slurry of known strength and measure out a part of it";

  MassConcentration exact() const { return aim.wanted; }
  Mass measured(MassConcentration exact, lab::Rounding rounding) const {
    return lab::rounded<Mass>(exact * in[lot::volume], rounding, to_balance);
  }
  MassConcentration reached(MassConcentration given) const { return given; }
  MassConcentration reached(Mass amount) const { return amount / in[lot::volume]; }

  bool keeps(Mass amount) const { return !lab::too_much_water(in, water_of(in, amount)); }
  bool permits(MassConcentration, Mass amount) const { return water_allows(amount); }
  bool water_allows(Mass amount) const {
    return lab::water_allows(in, water_of(in, amount), {"slurry", in[slurry], "nothing was dosed"}, out);
  }
  // In the tank by now; else it was done above.
  void hold(Mass amount) const {
    if (in.decided(dose) && lab::any(amount)) water_allows(amount);
  }

  void settle(Mass amount) const { fine_with(in, amount, out); }
  void order(Mass amount) const {
    out.additions.push_back(lab::Portion{.mass = amount}.ordered(bentonite, in[lot::volume], 1));
  }
  void tell(MassConcentration, Mass amount) const { say_what_follows(in, amount, out); }
};

}  // namespace

Outcome run(const Inputs& in) {
  Outcome out;
  const auto trials = trials_of(in);
  const auto held = in.decided(dose);
  const std::size_t at = least_stable(trials, in[most_rise]);
  const bool found = at < trials.size();
  const Trial& trial = held ? trial_of(trials, *held) : found ? trials[at] : trials.back();
  stable_check(in, trial, held ? holds_the_test(trial, in[most_rise]) : found, out);
  const auto aim = lab::aim_from_nothing(dose.name, dose.unit, dose.decimals,
                                         trial.dose * (1 + in[from_bench_to_tank].value()), lab::left_by_balance);
  if (held || (found && lab::any(trial.dose)))
    lab::come_about(Dosing{{in, out, aim, true}});
  else
    fine_with(in, Mass{}, out);
  if (in.figures_only()) return out;
  if (found) between_trials(in, trials, at, out);
  if (found && !lab::any(trial.dose)) out.note("the wine holds the heat test without bentonite");
  advice(in, trials, out);
  return out;
}

}  // namespace vatwright::cold::protein
