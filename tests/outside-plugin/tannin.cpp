// A small plugin that doses: tannin up to a wanted amount in all, with what went in before.
#include "host/plugin/plugin.hpp"
#include "plugins/lab/allowance.hpp"
#include "plugins/lab/dose.hpp"

namespace {

using namespace vatwright;

constexpr std::string_view tannin = "tannin";  // in the catalogue, with its cautions
constexpr Source practice{.title = "doses of tannin", .standing = "common practice, no source"};

constexpr Key<MassConcentration> target{{.name = "target tannin",
                                         .help = "all tannin that the lot is given, with what went in before",
                                         .unit = "mg/L",
                                         .valid = Range{1, 1000},
                                         .usual = Range{20, 300},
                                         .source = practice}};
// The topic under which rule sets have their figure.
constexpr Limit<MassConcentration> limit{{.name = tannin, .help = "most tannin that may be added", .unit = "mg/L"}};
// What the step decides on: readings are drawn around their values with this dose in the tank.
constexpr Result<MassConcentration> dose{
    {.name = "dose", .help = "with the rounded mass", .unit = "g/hL", .decimals = 2, .decided = true}};

void give(const Inputs& in, MassConcentration added, Outcome& out) {
  out.result(dose, added);
  if (added > MassConcentration{}) out.change(lot::treated_with, in.with(lot::treated_with, tannin, added));
}

Outcome add(const Inputs& in) {
  Outcome out;
  if (const auto held = in.decided(dose)) {
    give(in, *held, out);
    return out;
  }
  const Volume tank = in[lot::volume];
  const MassConcentration before = lab::added_before(in, tannin);
  const lab::Allowance<MassConcentration> law{&limit, in[limit], before};
  const auto aim = lab::aim_from_nothing(target.name, target.unit, 0, in[target], lab::left_by_balance);
  lab::note_none_added_before(in, out);

  // Met already?
  if (aim.met_by(before)) {
    give(in, {}, out);
    out.checks.push_back(aim.met(before));
    law.hold({}, 0, "more went in before than the limit allows", out);
    return out;
  }
  // Forbidden?
  const MassConcentration exact = in[target] - before;
  if (law.passed_by(exact)) {
    give(in, {}, out);
    law.hold(exact, 0, "nothing was dosed: lower the target", out);
    return out;
  }
  // What the balance shows, to the nearest or, where a limit forbids that, down; and what it makes of the lot.
  const Mass weighed = lab::nearest_else_down(
      [&](lab::Rounding rounding) { return lab::rounded<Mass>(exact * tank, rounding, to_balance); },
      [&](Mass mass) { return !law.passed_by(mass / tank); });
  const MassConcentration added = weighed / tank;
  if (!lab::closes(aim, in[target], before + added, "what went in before, and the rounded mass",
                   "measure out a solution of known strength", out)) {
    give(in, {}, out);
    return out;
  }
  give(in, added, out);
  law.hold(added, 0, {}, out);
  if (weighed > Mass{})
    out.additions.push_back({.substance = std::string(tannin), .mass = weighed, .dose = figure(added, "g/hL", 2)});
  return out;
}

constexpr Need inputs[] = {needs(lot::volume), needs(target), takes(lot::treated_with)};
constexpr const ResultInfo* results[] = {&dose};
constexpr const Input* changes[] = {&lot::treated_with};
constexpr const LimitInfo* limits[] = {&limit};
constexpr std::string_view reagents[] = {tannin};
constexpr std::string_view example[] = {"volume=15 hL", "target tannin=120 mg/L"};
constexpr Source sources[] = {practice};
constexpr Calculation calculations[] = {{.name = "addition",
                                         .help = "tannin up to a wanted amount in all",
                                         .inputs = inputs,
                                         .results = results,
                                         .changes = changes,
                                         .limits = limits,
                                         .reagents = reagents,
                                         .sources = sources,
                                         .example = example,
                                         .run = add}};

}  // namespace

VATWRIGHT_PLUGIN("tannin", "0.1.0", "tannin, held to the law", calculations);
