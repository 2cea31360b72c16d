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

// The law counts every dose of it: a figure for what is used does not begin anew with the next dose.
bool counted(const Kind& kind) { return lot::is_counted(kind.id); }

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

struct Amount {
  std::optional<Mass> mass;
  std::optional<Volume> volume;
  MassConcentration dose;  // active substance that it gives
};

Amount measure_out(const Inputs& in, const Kind& kind, MassConcentration exact, lab::Rounding rounding) {
  const Volume tank = in[lot::volume];
  if (kind.liquid) {
    const Volume volume = lab::rounded<Volume>(exact * tank / in[strength], rounding, to_measure);
    return {{}, volume, volume * in[strength] / tank};
  }
  const Mass mass = lab::rounded<Mass>(exact * tank, rounding, to_balance);
  return {mass, {}, mass / tank};
}

// What a solution pours into the wine beside what acts. It has to stay small.
Fraction water_of(const Inputs& in, const Amount& amount) {
  return amount.volume ? Fraction(*amount.volume / in[lot::volume]) : Fraction{};
}

void write_addition(const Inputs& in, const Kind& kind, const Amount& amount, Outcome& out) {
  Addition addition{.substance = std::string(kind.id)};
  if (amount.mass) {
    addition.mass = amount.mass;
    addition.dose = figure(*amount.mass / in[lot::volume], "g/hL", 1);
  } else {
    addition.volume = amount.volume;
    addition.strength = fmt::format("{} {}", print(in[strength], "g/L", 1), kind.id);
    addition.dose = figure(*amount.volume / in[lot::volume], "mL/hL", 1);
  }
  out.additions.push_back(std::move(addition));
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
  const bool allowed = !law.passed_by(value);
  law.hold(value, 1, allowed ? std::string() : refusal(law), out);
  return allowed;
}

// `given`: of what acts, before rounding or as it is in the tank by now.
bool little_water(const Inputs& in, const Kind& kind, MassConcentration given, Outcome& out) {
  if (!kind.liquid) return true;
  const Fraction share = given / in[strength];
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

// What passes a limit is held against it as it was asked for, what keeps it as it is measured out.
bool lawful_water(const Inputs& in, const Kind& kind, MassConcentration asked, MassConcentration measured,
                  Outcome& out) {
  if (!kind.liquid) return true;
  const Fraction wanted_water = asked / in[strength], poured = measured / in[strength];
  return lab::water_allows(in, lab::too_much_water(in, wanted_water) ? wanted_water : poured,
                           {"solution", in[strength], "nothing was dosed"}, out);
}

// --- what the lot is then

void treat(const Inputs& in, const Kind& kind, MassConcentration given, Outcome& out) {
  out.result(dose, given);
  if (!(given > MassConcentration{})) return;
  if (counted(kind)) out.change(lot::treated_with, in.with(lot::treated_with, kind.id, given));
  if (kind.liquid) lab::pour_water(in, given / in[strength], out);
}

// --- what to know

void cautions(const Inputs& in, const Kind& kind, const Law& law, Outcome& out) {
  if (!law.bound) {
    out.note(kind.limit == nullptr
                 ? fmt::format("no rule set here gives a figure for {}: good practice and the label bound it", kind.id)
                 : fmt::format("no rule set of this recipe limits {} for this lot: check the current text", kind.id));
  } else if (counted(kind) && !law.forbids()) {
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

// What is particular to a treatment (lab::come_about): it is given as it was asked for, or not at all.
struct Dosing {
  const Inputs& in;
  const Kind& kind;
  const Law& law;
  MassConcentration wanted_of_it;
  Outcome& out;

  bool enough() const { return false; }
  void leave() {}

  MassConcentration exact() const { return wanted_of_it; }
  // All that stands in the way is told at once.
  bool allowed(MassConcentration exact) {
    const Amount amount = lab::nearest_else_down([&](lab::Rounding rounding) { return measured(exact, rounding); },
                                                 [&](const Amount& shown) { return keeps(exact, shown); });
    const bool clear = protein_allows(in, kind, out);
    // What passes a limit is held against it as it was asked for, what keeps it as it is weighed.
    const bool lawful = law_allows(law, law.passed_by(exact) ? exact : amount.dose, out);
    const bool little = little_water(in, kind, exact, out);
    const bool as_the_law_says = lawful_water(in, kind, exact, amount.dose, out);
    return clear && lawful && little && as_the_law_says;
  }
  void refuse(MassConcentration) { treat(in, kind, MassConcentration{}, out); }

  Amount measured(MassConcentration exact, lab::Rounding rounding) const {
    return measure_out(in, kind, exact, rounding);
  }
  bool keeps(MassConcentration, const Amount& amount) const {
    return !law.passed_by(amount.dose) && !lab::too_much_water(in, water_of(in, amount));
  }
  Check closing(MassConcentration exact, const Amount& amount) const {
    return lab::aim_from_nothing(dose.name, dose.unit, dose.decimals, exact, lab::left_by_balance)
        .closing(exact, amount.dose, "the rounded amount in the lot", "dose from a weaker solution");
  }
  void withhold(Check closing) {
    out.checks.push_back(std::move(closing));
    treat(in, kind, MassConcentration{}, out);
  }

  void give(MassConcentration, const Amount& amount, Check closing) {
    out.checks.push_back(std::move(closing));
    write_addition(in, kind, amount, out);
    treat(in, kind, amount.dose, out);
  }
};

// What is in the tank by now, against its limits.
void hold(const Inputs& in, const Kind& kind, MassConcentration given, Outcome& out) {
  treat(in, kind, given, out);
  law_of(in, kind).hold(given, 1, {}, out);
  little_water(in, kind, given, out);
  lawful_water(in, kind, given, given, out);
}

}  // namespace

Outcome run(const Inputs& in) {
  Outcome out;
  const Kind& kind = kind_of(in);
  if (const auto held = in.decided(dose)) {
    hold(in, kind, *held, out);
    return out;
  }
  check_stage(in, kind);
  check_strength(in, kind);
  const Law law = law_of(in, kind);
  const MassConcentration exact = wanted_dose(in, kind, law);
  if (counted(kind)) lab::check_total(in, kind.id, exact);
  lab::come_about(Dosing{in, kind, law, exact, out});
  if (!in.figures_only()) cautions(in, kind, law, out);
  return out;
}

}  // namespace vatwright::cold::treatment
