#include "plugins/cold/treatment.hpp"

#include "plugins/chemistry/rounding.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace vatwright::cold::treatment {
namespace {

constexpr MassConcentration usual_seed = 4.0 * gram_per_litre;
// Rounding that moves the dose by more than this is too coarse to dose by.
constexpr double coarse = 0.05;

// What the kinds of treatment differ in.
struct Kind {
  std::string_view id;
  const Limit<MassConcentration>* limit;
  bool liquid;       // sold as a solution
  bool needs_clear;  // clouds a wine whose protein is unstable
  bool seed;
};
constexpr Kind kinds[] = {
    {bitartrate_seed, &seed_limit, false, false, true},       {calcium_seed, &calcium_seed_limit, false, false, true},
    {cellulose, &cellulose_limit, true, true, false},         {metatartaric, &metatartaric_limit, false, true, false},
    {polyaspartate, &polyaspartate_limit, true, true, false}, {mannoprotein, nullptr, false, false, false}};

const Kind& kind_of(const Inputs& in) {
  return *std::find_if(std::begin(kinds), std::end(kinds), [&](const Kind& k) { return k.id == in[substance].id; });
}

using MaybeBound = std::optional<Bound<MassConcentration>>;

MaybeBound law_of(const Inputs& in, const Kind& kind) { return kind.limit == nullptr ? MaybeBound() : in[*kind.limit]; }

bool passes(const MaybeBound& law, MassConcentration value) { return law && !law->met_by(value); }

MassConcentration wanted_dose(const Inputs& in, const Kind& kind, const MaybeBound& law) {
  if (const auto given = in.get(wanted)) return *given;
  if (kind.id == bitartrate_seed) return usual_seed;
  std::string hint = "take it from a bench series or the label, such as 'wanted dose: 80 mg/L'";
  if (law) hint += fmt::format("; {} allows at most {}", law->row.rules, print(law->value.value(), "mg/L", 0));
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

Amount measure_out(const Inputs& in, const Kind& kind, MassConcentration exact, chemistry::Rounding rounding) {
  const Volume tank = in[lot::volume];
  if (kind.liquid) {
    const Volume volume = chemistry::rounded<Volume>(exact * tank / in[strength], rounding, to_measure);
    return {{}, volume, volume * in[strength] / tank};
  }
  const Mass mass = chemistry::rounded<Mass>(exact * tank, rounding, to_balance);
  return {mass, {}, mass / tank};
}

// Rounding alone must not carry the lot over a limit that the exact dose keeps.
Amount amount_for(const Inputs& in, const Kind& kind, MassConcentration exact, const MaybeBound& law) {
  const Amount nearest = measure_out(in, kind, exact, chemistry::Rounding::nearest);
  return passes(law, nearest.dose) ? measure_out(in, kind, exact, chemistry::Rounding::down) : nearest;
}

void write_addition(const Inputs& in, const Kind& kind, const Amount& amount, Outcome& out) {
  Addition addition{.substance = std::string(kind.id)};
  if (amount.mass) {
    addition.mass = amount.mass;
    addition.dose = figure(*amount.mass / in[lot::volume], "g/hL", 1);
  } else {
    addition.volume = amount.volume;
    addition.strength = fmt::format("{} {}", print(in[strength].value(), "g/L", 1), kind.id);
    addition.dose = figure(*amount.volume / in[lot::volume], "mL/hL", 1);
  }
  out.additions.push_back(std::move(addition));
}

void closing_check(MassConcentration got, MassConcentration asked, Outcome& out) {
  const bool holds = std::abs((got - asked).value()) <= coarse * asked.value();
  out.checks.push_back({.name = "closing check: dose",
                        .holds = holds,
                        .value = figure(got, "mg/L", 1),
                        .limit = figure(asked, "mg/L", 1),
                        .relation = "equals",
                        .source = "the rounded amount in the lot",
                        .remedy = holds ? ""
                                        : "the dose is too small to be weighed or measured out well: dose from a "
                                          "weaker solution"});
}

// --- what stands in the way

// False when the protein is known to be unstable. A wine that was not tested gets its dose, but not a
// check that holds.
bool protein_allows(const Inputs& in, const Kind& kind, Outcome& out) {
  if (!kind.needs_clear) return true;
  std::string remedy;
  if (in[protein_stable] == no)
    remedy =
        "nothing was dosed: the treatment would cloud this wine. Fine it first (cold.protein) and run the heat test "
        "again";
  if (in[protein_stable] == untested)
    remedy = fmt::format(
        "it was not tested: {} clouds a wine whose protein is unstable. Run the heat test (cold.protein) before you "
        "dose, and say 'protein stable: yes'",
        kind.id);
  const bool holds = remedy.empty();
  out.checks.push_back({.name = "protein stable before treatment",
                        .holds = holds,
                        .source = "cautions of the substance",
                        .remedy = std::move(remedy)});
  return in[protein_stable] != no;
}

std::string refusal(const Bound<MassConcentration>& law) {
  if (!(law.value > MassConcentration{})) return "nothing was dosed: it is not for this wine; take another treatment";
  return fmt::format("nothing was dosed. At most {} is allowed in this wine, with what was added before",
                     print(law.value.value(), "mg/L", 1));
}

// --- what to know

void cautions(const Inputs& in, const Kind& kind, const MaybeBound& law, Outcome& out) {
  if (!law) {
    out.note(kind.limit == nullptr
                 ? fmt::format("no rule set here gives a figure for {}: good practice and the label bound it", kind.id)
                 : fmt::format("no rule set of this recipe limits {} for this lot: check the current text", kind.id));
  } else {
    out.note("the limit counts what was added before: take that off");
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
                         print(celsius(-in[lot::ethanol] / percent_vol / 2).value(), "°C", 1)));
  if (kind.id == bitartrate_seed)
    out.note("for what the tank will be like afterwards run cold.tartrate with 'crystals: fall out'");
  if (kind.id == calcium_seed)
    out.note("no cold test foretells calcium tartrate: measure calcium before and after (cold.calcium)");
  else
    out.note(fmt::format("test the treated wine, not the untreated one: {}", bitartrate_test));
}

}  // namespace

Outcome run(const Inputs& in) {
  Outcome out;
  if (const auto held = in.decided(dose)) {
    out.result(dose, *held);
    return out;
  }
  const Kind& kind = kind_of(in);
  const MaybeBound law = law_of(in, kind);
  const MassConcentration exact = wanted_dose(in, kind, law);
  check_strength(in, kind);
  const bool clear = protein_allows(in, kind, out);
  const bool lawful = !passes(law, exact);
  if (clear && lawful) {
    const Amount amount = amount_for(in, kind, exact, law);
    out.result(dose, amount.dose);
    if (amount.dose > MassConcentration{}) write_addition(in, kind, amount, out);
    closing_check(amount.dose, exact, out);
    if (law) out.hold(*kind.limit, *law, amount.dose, 1, {});
  } else {
    out.result(dose, MassConcentration{});
    if (law) out.hold(*kind.limit, *law, exact, 1, refusal(*law));
  }
  if (!in.figures_only()) cautions(in, kind, law, out);
  return out;
}

}  // namespace vatwright::cold::treatment
