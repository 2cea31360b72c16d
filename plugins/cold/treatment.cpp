#include "plugins/cold/treatment.hpp"

#include "plugins/lab/allowance.hpp"
#include "plugins/lab/dose.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

#include <cmath>
#include <stdexcept>

namespace vatwright::cold::treatment {
namespace {

constexpr MassConcentration usual_seed = 4.0 * gram_per_litre;
// A solution that brings more water than this thins the wine (common practice, no source).
constexpr Fraction most_water = coherent<Fraction>(0.005);

// What the kinds of treatment differ in.
struct Kind {
  std::string_view id;
  const Limit<MassConcentration>* limit;
  bool liquid;       // sold as a solution
  bool needs_clear;  // clouds a wine whose protein is unstable
  bool seed;
};
constexpr Kind kinds[] = {{bitartrate_seed, &seed_limit, false, false, true},
                          {calcium_seed, &calcium_seed_limit, false, false, true},
                          {cellulose, &cellulose_limit, true, true, false},
                          {metatartaric, &metatartaric_limit, false, true, false},
                          {polyaspartate, &polyaspartate_limit, true, true, false},
                          {mannoprotein, nullptr, false, false, false},
                          {gum, &gum_limit, true, false, false}};

const Kind& kind_of(const Inputs& in) {
  for (const auto& kind : kinds)
    if (kind.id == in[substance].id) return kind;
  throw std::logic_error("no treatment with " + in[substance].id);
}

using Law = lab::Allowance<MassConcentration>;

Law law_of(const Inputs& in, const Kind& kind) {
  if (kind.limit == nullptr) return {};
  return {kind.limit, in[*kind.limit], lab::added_before(in, kind.id)};
}

void check_stage(const Inputs& in, const Kind& kind) {
  if (kind.seed || in.get(lot::stage) != "must") return;
  throw InputError(fmt::format("{} keeps crystals from growing in the bottle, and this lot is must", kind.id),
                   "treat the finished wine: fermentation, fining and cold would take it out again");
}

MassConcentration wanted_dose(const Inputs& in, const Kind& kind, const Law& law) {
  if (const auto given = in.get(wanted)) return *given;
  if (kind.id == bitartrate_seed) return usual_seed;
  std::string hint = "take it from a bench series or the label, such as 'wanted dose: 80 mg/L'";
  if (law.bound)
    hint += fmt::format("; {} allows at most {}", law.bound->row.rules, print(law.bound->value, "mg/L", 0));
  throw InputError("the dose of " + std::string(kind.id) + " was not given", hint);
}

void check_strength(const Inputs& in, const Kind& kind) {
  if (kind.liquid == in.has(strength)) return;
  if (kind.liquid)
    throw InputError("a solution of " + std::string(kind.id) + " needs its strength",
                     "such as 'strength: 50 g/L', from the label");
  throw InputError("strength was given, but " + std::string(kind.id) + " is weighed as a solid", "leave strength out");
}

// --- the amount

lab::Portion measure_out(const Inputs& in, const Kind& kind, MassConcentration exact, lab::Rounding rounding) {
  const Volume tank = in[lot::volume];
  if (kind.liquid) {
    const Volume volume = lab::rounded<Volume>(exact * tank / in[strength], rounding, to_measure);
    return {{}, volume, volume * in[strength] / tank};
  }
  const Mass mass = lab::rounded<Mass>(exact * tank, rounding, to_balance);
  return {mass, {}, mass / tank};
}

// What a solution pours into the wine beside what acts. It has to stay small.
Fraction water_of(const Inputs& in, const Kind& kind, MassConcentration given) {
  return kind.liquid ? Fraction(given / in[strength]) : Fraction{};
}

// --- what stands in the way

// False unless the protein is known to be stable, where it must be.
bool protein_allows(const Inputs& in, const Kind& kind, Outcome& out) {
  if (!kind.needs_clear) return true;
  std::string remedy;
  if (in[protein_stable] == no)
    remedy =
        "nothing was dosed: the treatment would cloud this wine. Fine it first (cold.protein) and run the heat test "
        "again";
  if (in[protein_stable] == untested)
    remedy = fmt::format(
        "nothing was dosed: {} clouds a wine whose protein is unstable, and this was not tested. Run the heat test "
        "(cold.protein) before you dose, and say 'protein stable: yes' or 'no'",
        kind.id);
  const bool holds = remedy.empty();
  out.checks.push_back({.name = "protein stable before treatment",
                        .holds = holds,
                        .source = "cautions of the substance",
                        .remedy = std::move(remedy)});
  return holds;
}

std::string refusal(const Law& law) {
  if (law.forbids()) return "nothing was dosed: it is not for this wine; take another treatment";
  const auto more = lab::down_to_step<MassConcentration>(law.room(), 0.1 * milligram_per_litre);
  if (!(law.before > MassConcentration{}))
    return fmt::format("nothing was dosed. At most {} is allowed in this wine", print(more, "mg/L", 1));
  return fmt::format("nothing was dosed. At most {} is allowed in this wine, and {} was added before: {} more",
                     print(law.bound->value, "mg/L", 1), print(law.before, "mg/L", 1), print(more, "mg/L", 1));
}

bool law_allows(const Law& law, MassConcentration value, Outcome& out) {
  if (law.bound) law.hold(value, 1, refusal(law), out);
  return !law.passed_by(value);
}

// `given`: of what acts, before rounding or as it is in the tank by now.
bool little_water(const Inputs& in, const Kind& kind, MassConcentration given, Outcome& out) {
  if (!kind.liquid) return true;
  const Fraction share = water_of(in, kind, given);
  const bool little = LimitRow{.number = most_water.value()}.met_by(share.value());
  out.checks.push_back(
      {.name = "water of the solution, share of the wine",
       .holds = little,
       .value = figure(share, "%", 2),
       .limit = figure(most_water, "%", 2),
       .relation = "at most",
       .source = "common practice, no source",
       .remedy = little ? ""
                        : fmt::format(
                              "nothing was dosed: it would thin the wine. A solution of {} or more does not",
                              print(coherent<MassConcentration>(std::ceil((given / most_water).value())), "g/L", 0))});
  return little;
}

bool lawful_water(const Inputs& in, const Kind& kind, MassConcentration given, Outcome& out) {
  return !kind.liquid ||
         lab::water_allows(in, water_of(in, kind, given), {"solution", in[strength], "nothing was dosed"}, out);
}

// --- what to know

void cautions(const Inputs& in, const Kind& kind, const Law& law, Outcome& out) {
  if (!law.bound) {
    out.note(kind.limit == nullptr
                 ? fmt::format("no rule set here gives a figure for {}: good practice and the label bound it", kind.id)
                 : fmt::format("no rule set of this recipe limits {} for this lot: check the current text", kind.id));
  } else if (lot::is_counted(kind.id) && !law.forbids()) {
    lab::note_none_added_before(in, out);
  }
  if (kind.id == cellulose && in.get(lot::colour) == "pink")
    out.note(
        "in pink wine carboxymethylcellulose can drop colour: treat a bottle, chill it for a week and look, before the "
        "tank. The text of the OIV that was read (2/2008) names white and sparkling wine; that pink wine may have it "
        "is from memory: read the current text");
  if (kind.id == cellulose && in.get(lot::colour).empty())
    out.note("colour was not given: carboxymethylcellulose is not for red wine, and pink wine wants a trial");
  if (kind.id == metatartaric)
    out.note(
        "metatartaric acid breaks down with time and warmth and then protects no longer: for wine that is kept cool "
        "and drunk soon. Its remains add tartaric acid to the wine");
  if (kind.id == mannoprotein) out.note("too little and too much both fail: the bench series sets the dose");
  if (kind.seed && in.has(lot::ethanol))
    out.note(fmt::format("this wine freezes near {} (minus half of the % vol; common practice, no source)",
                         print(celsius(-in[lot::ethanol] / percent_vol / 2), "°C", 1)));
  if (kind.id == bitartrate_seed)
    out.note("for what the tank will be like afterwards run cold.tartrate with 'crystals: fall out'");
  if (kind.id == calcium_seed)
    out.note("no cold test foretells calcium tartrate: measure calcium before and after (cold.calcium)");
  else
    out.note(fmt::format("test the treated wine, not the untreated one: {}", bitartrate_test));
}

// What is particular to a treatment: it is given as it was asked for, or not at all.
struct Dosing : lab::Job<lab::Aim<MassConcentration>> {
  static constexpr const auto& decided = dose;
  static constexpr std::string_view model = "the rounded amount in the lot", way_out = "dose from a weaker solution";
  const Kind& kind;
  const Law& law;

  MassConcentration exact() const { return aim.wanted; }
  lab::Portion measured(MassConcentration exact, lab::Rounding rounding) const {
    return measure_out(in, kind, exact, rounding);
  }
  MassConcentration reached(MassConcentration given) const { return given; }
  MassConcentration reached(const lab::Portion& given) const { return given.acting; }

  bool keeps(const lab::Portion& given) const { return !law.passed_by(given.acting) && !too_watery(given.acting); }
  bool too_watery(MassConcentration given) const { return lab::too_much_water(in, water_of(in, kind, given)); }
  // All that stands in the way is told at once. What passes a limit is held against it as it was asked for, what keeps
  // it as it is measured out.
  bool permits(MassConcentration asked, const lab::Portion& given) const {
    const bool clear = protein_allows(in, kind, out);
    const bool lawful = law_allows(law, law.passed_by(asked) ? asked : given.acting, out);
    const bool little = little_water(in, kind, asked, out);
    return lawful_water(in, kind, too_watery(asked) ? asked : given.acting, out) && clear && lawful && little;
  }
  // In the tank by now; else it was done above.
  void hold(const lab::Portion& given) const {
    if (!in.decided(dose)) return;
    law.hold(given.acting, 1, {}, out);
    little_water(in, kind, given.acting, out);
    lawful_water(in, kind, given.acting, out);
  }

  void settle(const lab::Portion& given) const {
    out.result(dose, given.acting);
    if (!lab::any(given)) return;
    lab::keep_account(kind.id, given.acting, out);
    lab::carry_on_past_seed(kind.id, out);
    if (kind.liquid) lab::pour_water(in, water_of(in, kind, given.acting), out);
  }
  void order(const lab::Portion& given) const {
    out.additions.push_back(given.ordered(
        kind.id, in[lot::volume], 1, kind.liquid ? fmt::format("{} {}", print(in[strength], "g/L", 1), kind.id) : ""));
  }
};

}  // namespace

Outcome run(const Inputs& in) {
  Outcome out;
  const Kind& kind = kind_of(in);
  check_stage(in, kind);
  check_strength(in, kind);
  const Law law = law_of(in, kind);
  const MassConcentration asked = wanted_dose(in, kind, law);
  // The law counts every dose of it: a figure for what is used does not begin anew with the next dose.
  if (lot::is_counted(kind.id)) lab::check_total(in, kind.id, asked);
  const auto aim = lab::aim_from_nothing(dose.name, dose.unit, dose.decimals, asked, lab::left_by_balance);
  lab::come_about(Dosing{{in, out, aim, true}, kind, law});
  if (!in.figures_only()) cautions(in, kind, law, out);
  return out;
}

}  // namespace vatwright::cold::treatment
