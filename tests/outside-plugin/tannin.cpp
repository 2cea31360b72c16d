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

// What is particular to it; lab::come_about() does the rest, the same for all that doses.
struct Dosing : lab::Job<lab::Aim<MassConcentration>> {
  static constexpr const auto& decided = dose;
  static constexpr std::string_view model = "what went in before, and the rounded mass",
                                    way_out = "measure out a solution of known strength";
  lab::Allowance<MassConcentration> law;

  // Before rounding, what the balance shows of it, and what that makes of the lot.
  MassConcentration exact() const { return aim.wanted - law.before; }
  Mass measured(MassConcentration exact, lab::Rounding rounding) const {
    return lab::rounded<Mass>(exact * in[lot::volume], rounding, to_balance);
  }
  MassConcentration added(Mass weighed) const { return weighed / in[lot::volume]; }
  MassConcentration reached(MassConcentration added) const { return law.before + added; }
  MassConcentration reached(Mass weighed) const { return reached(added(weighed)); }

  // Forbidden?
  bool allowed(MassConcentration exact) const { return !law.passed_by(exact); }
  bool keeps(Mass weighed) const { return !law.passed_by(added(weighed)); }
  void refuse(MassConcentration exact) const { law.hold(exact, 0, "nothing was dosed: lower the target", out); }
  void hold(Mass weighed) const { law.hold(added(weighed), 0, "more went in before than the limit allows", out); }

  // Results and the lot, of nothing too; then what is weighed.
  void settle(Mass weighed) const {
    out.result(dose, added(weighed));
    if (lab::any(weighed)) lab::keep_account(tannin, added(weighed), out);
  }
  void order(Mass weighed) const {
    out.additions.push_back(lab::Portion{.mass = weighed}.ordered(tannin, in[lot::volume]));
  }
};

Outcome add(const Inputs& in) {
  Outcome out;
  const auto aim = lab::aim_from_nothing(target.name, target.unit, 0, in[target], lab::left_by_balance);
  lab::note_none_added_before(in, out);
  lab::come_about(Dosing{{in, out, aim}, {&limit, in[limit], lab::added_before(in, tannin)}});
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
