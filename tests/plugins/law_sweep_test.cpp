// Every row of every rule set, read with yaml-cpp alone, and run through the calculation that holds its topic: a lot is
// moved until it stands just inside and one just outside. A topic without a way to do so fails here.
#include "tests/plugins/run.hpp"

#include <fmt/format.h>
#include <yaml-cpp/yaml.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <set>
#include <vector>

namespace vatwright::test {
namespace law_sweep_test {

// A recipe's lots and steps with '@x' for what is moved and '@lot' for what the row asks of the lot; x goes from `low`
// to `high` times the row's figure in `unit`, or, where that is nothing, up to `some`.
struct Way {
  std::string lots, step, unit;
  double low = 0.5, high = 1.5, some = 1;
};

Way dosed(const std::string& substance, double share = 1) {
  return {"{T: {volume: 1000 hL, @lot}}", fmt::format("cellar.dose: {{substance: {}, dose: @x g/hL}}", substance),
          "g/hL", 0.5 / share, 1.5 / share};
}

Way joined_lots(const std::string& fact, const std::string& unit) {
  return {fmt::format("{{A: {{@lot, {0}: @x {1}}}, B: {{@lot, {0}: @x {1}}}}}", fact, unit),
          "blend.mix: {lots: {A: 50 %, B: 50 %}, into: C}", unit};
}

// So much of what the label names, and the rest is something else.
Way labelled(const std::string& fact, const std::string& mine, const std::string& other, const std::string& label) {
  return {fmt::format("{{A: {{@lot, {0}: {1}}}, B: {{@lot, {0}: {2}}}}}", fact, mine, other),
          "blend.mix: {lots: {A: @x %, B: @rest %}, into: C, " + label + "}", "%", 0.6, 0.9999};
}

const std::string grown_must = "{T: {volume: 100 hL, sugar: 190 g/L, strength gained: @x % vol, @lot}}";
const std::string sharp_wine =
    "{T: {volume: 100 hL, pH: 3.3, titratable acidity: 7 g/L as tartaric acid, tartaric acid: 3 g/L, malic acid: 2 "
    "g/L, potassium: 900 mg/L, @fact@lot}}";

Way acid_wine(const std::string& fact, const std::string& step, const std::string& unit, double low = 0.5,
              double high = 1.5) {
  std::string lots = sharp_wine;
  lots.replace(lots.find("@fact"), 5, fact.empty() ? "" : fact + ", ");
  return {lots, step, unit, low, high};
}

const std::string more_acid = "acid.addition: {target titratable acidity: 7.05 g/L as tartaric acid}";
const std::string less_acid =
    "acid.reduction: {target titratable acidity: 6.95 g/L as tartaric acid, substance: calcium carbonate}";

const std::map<std::string, Way>& ways() {
  static const std::map<std::string, Way> all{
      {"total SO2", joined_lots("total SO2", "mg/L")},
      {"free SO2", joined_lots("free SO2", "mg/L")},
      {"volatile acidity", joined_lots("volatile acidity", "g/L as acetic acid")},
      {"sodium", joined_lots("sodium", "mg/L")},
      {"PVPP", dosed("PVPP")},
      {"PVI/PVP", dosed("PVI/PVP")},
      {"activated carbon", dosed("activated carbon")},
      {"light transmittance after decolouring",
       {"{T: {volume: 100 hL, @lot}}", "cellar.dose: {substance: activated carbon, dose: 10 g/hL, transmittance: @x %}",
        "%", 0.9, 1.05}},
      {"volume lost by concentration",
       {"{T: {volume: 100 hL, sugar: 190 g/L, volume lost: @x %, @lot}}", "sugar.concentration: {water taken off: 1 L}",
        "%"}},
      {"strength gained by concentration",
       {"{T: {volume: 100 hL, sugar: 190 g/L, @lot}}", "sugar.concentration: {water taken off: @dose L}", "% vol", 0, 0,
        4000}},
      {"strength gained by sweetening",
       {"{T: {volume: 100 hL, sugar: 1 g/L, sweetening gained: @x % vol, @lot}}",
        "sugar.sweetening: {strength: 65 °Brix, target sugar: 3 g/L}", "% vol"}},
      {"total solids after sweetening",
       {"{T: {volume: 100 hL, sugar: 1 g/L, @lot}}", "sugar.sweetening: {strength: 65 °Brix, target sugar: @sweet g/L}",
        "% mass", 0, 0, 280}},
      {"strength of a sweetened wine",
       {"{T: {volume: 100 hL, sugar: 1 g/L, ethanol: @x % vol, @lot}}",
        "sugar.sweetening: {strength: 65 °Brix, target sugar: 3 g/L}", "% vol", 0.9, 1.1}},
      {"total strength of wine",
       {"{T: {sugar: 1 g/L, ethanol: @x % vol, @lot}}", "label.strength: {stated strength: 12 % vol}", "% vol", 0.9,
        1.1}},
      {"water added to must",
       {"{T: {volume: 100 hL, soluble solids: 24 °Brix, @lot}}", "sugar.water: {target soluble solids: @down °Brix}",
        "%"}},
      {"soluble solids after water",
       {"{T: {volume: 100 hL, soluble solids: 24 °Brix, @lot}}", "sugar.water: {target soluble solids: @x °Brix}",
        "°Brix", 0.9, 1.05}},
      {"soluble solids lost to water",
       {"{T: {volume: 100 hL, soluble solids: 22.9 °Brix, @lot}}", "sugar.water: {target soluble solids: @fall °Brix}",
        "°Brix"}},
      {"ameliorating water",
       {"{T: {volume: 100 hL, soluble solids: 20 °Brix, titratable acidity: 20 g/L as tartaric acid, amelioration: @x "
        "%, "
        "@lot}}",
        "sugar.water: {target titratable acidity: 19.9 g/L as tartaric acid}", "%"}},
      {"fixed acidity after amelioration",
       {"{T: {volume: 100 hL, soluble solids: 20 °Brix, titratable acidity: 6 g/L as tartaric acid, volatile acidity: "
        "0 "
        "meq/L, @lot}}",
        "sugar.water: {target titratable acidity: @x meq/L}", "meq/L", 0.9, 1.1}},
      {"pH after acidification", acid_wine("", "acid.addition: {target pH: @x}", "pH", 0.97, 1.05)},
      {"chitosan", dosed("chitosan")},
      {"plant protein", dosed("pea protein")},
      {"silica sol", dosed("silica sol, share that acts: 30 %", 1 / 0.30)},
      {"yeast hulls", dosed("yeast hulls")},
      {"lysozyme", dosed("lysozyme")},
      {"tannin", dosed("tannin")},
      {"egg albumin", dosed("egg albumin")},
      {"ascorbic acid", dosed("ascorbic acid")},
      {"sorbic acid", dosed("potassium sorbate", 112.13 / 150.22)},
      {"fumaric acid", dosed("fumaric acid")},
      {"gum arabic", dosed("gum arabic")},
      {"carboxymethylcellulose", dosed("carboxymethylcellulose")},
      {"metatartaric acid", dosed("metatartaric acid")},
      {"potassium polyaspartate", dosed("potassium polyaspartate")},
      {"thiamine hydrochloride", dosed("thiamine hydrochloride")},
      {"dimethyl dicarbonate", dosed("dimethyl dicarbonate")},
      {"potassium bitartrate seed", dosed("potassium bitartrate")},
      {"calcium tartrate seed", dosed("calcium tartrate")},
      {"diammonium phosphate", dosed("diammonium phosphate")},
      {"ammonium sulfate", dosed("ammonium sulfate")},
      {"ammonium salts", dosed("diammonium phosphate")},
      {"copper sulfate", dosed("copper sulfate pentahydrate")},
      {"copper added", dosed("copper sulfate pentahydrate", 63.546 / 249.69)},
      {"copper residual", dosed("copper sulfate pentahydrate", 63.546 / 249.69)},
      {"treatment water",
       {"{T: {volume: 100 hL, @lot, water added: @x %}}",
        "blend.scale: {substance: bentonite, stock: 50 g/L, aliquot: 0.1 mL, sample: 100 mL, slurry: 400 g/L}", "%"}},
      {"variety share for a label", labelled("varieties", "Sorrel", "Teasel", "label variety: Sorrel")},
      {"vintage share for a label", labelled("vintage", "2026", "2025", "label vintage: 2026, label origin: other")},
      {"vintage share for a viticultural area",
       labelled("vintage", "2026", "2025", "label vintage: 2026, label origin: viticultural area")},
      {"origin share for a label", labelled("origin", "Vale", "Moor", "label place: Vale, label origin: other")},
      {"origin share for a viticultural area",
       labelled("origin", "Vale", "Moor", "label place: Vale, label origin: viticultural area")},
      {"origin share for a protected designation",
       labelled("origin", "Vale", "Moor", "label place: Vale, label origin: protected designation")},
      {"origin share for a protected indication",
       labelled("origin", "Vale", "Moor", "label place: Vale, label origin: protected indication")},
      {"several varieties on a label", labelled("varieties", "{Sorrel: 60 %, Bramble: 40 %}", "Teasel",
                                                "label varieties: {Sorrel: 60 %, Bramble: 40 %}")},
      {"tolerance of a stated variety share",
       {"{A: {@lot, varieties: Sorrel}, B: {@lot, varieties: Teasel}}",
        "blend.mix: {lots: {A: 50 %, B: 50 %}, into: C, label varieties: {Sorrel: @half %, Teasel: @other %}}", "%"}},
      {"added acidity", acid_wine("acid added: @x meq/L", more_acid, "meq/L")},
      {"removed acidity", acid_wine("acid removed: @x meq/L", less_acid, "meq/L")},
      {"acid removed before acidification", acid_wine("acid removed: @x meq/L", more_acid, "meq/L")},
      {"acid added before deacidification", acid_wine("acid added: @x meq/L", less_acid, "meq/L")},
      {"enriched before acidification", acid_wine("strength gained: @x % vol", more_acid, "% vol")},
      {"total acidity of wine",
       {"{T: {volume: 100 hL, pH: 3.5, titratable acidity: 4.6 g/L as tartaric acid, tartaric acid: 3 g/L, malic acid: "
        "0.5 "
        "g/L, potassium: 900 mg/L, @lot}}",
        "acid.reduction: {target titratable acidity: @x meq/L, substance: calcium carbonate}", "meq/L", 0.95, 1.2}},
      {"fixed acidity after deacidification",
       {"{T: {volume: 100 hL, pH: 3.3, titratable acidity: 7 g/L as tartaric acid, tartaric acid: 3 g/L, malic acid: 2 "
        "g/L, potassium: 900 mg/L, volatile acidity: 0 meq/L, @lot}}",
        "acid.reduction: {target titratable acidity: @x meq/L, substance: calcium carbonate}", "meq/L", 0.85, 1.3}},
      {"fixed acidity after acidification",
       {"{T: {volume: 100 hL, pH: 3.6, titratable acidity: 6 g/L as tartaric acid, volatile acidity: 0 meq/L, @lot}}",
        "acid.addition: {target titratable acidity: @x meq/L}", "meq/L", 0.85, 1.15}},
      {"residual tartaric acid",
       {"{T: {volume: 100 hL, pH: 3.0, titratable acidity: 9 g/L as tartaric acid, tartaric acid: 3 g/L, malic acid: 4 "
        "g/L, potassium: 900 mg/L, @lot}}",
        "acid.reduction: {target titratable acidity: @less g/L as tartaric acid, substance: calcium carbonate}",
        "g/L"}},
      {"citric acid",
       acid_wine("citric acid: @x g/L",
                 "acid.addition: {substance: citric acid, target titratable acidity: 7.05 g/L as tartaric acid}",
                 "g/L")},
      {"strength gained by enrichment",
       {grown_must, "sugar.enrichment: {target potential alcohol: 11.4 % vol}", "% vol", 0.5, 1.5, 1}},
      {"total strength after enrichment",
       {"{T: {volume: 100 hL, sugar: 185 g/L, @lot}}", "sugar.enrichment: {target potential alcohol: @x % vol}",
        "% vol", 0.98, 1.04}},
      {"acidified before enrichment",
       {"{T: {volume: 100 hL, sugar: 190 g/L, acid added: @x meq/L, @lot}}",
        "sugar.enrichment: {target potential alcohol: 11.4 % vol}", "meq/L"}},
      {"volume gained by concentrated must",
       {"{T: {volume: 100 hL, sugar: 190 g/L, volume gained: @x %, @lot}}",
        "sugar.enrichment: {substance: rectified concentrated must, strength: 65 °Brix, target potential alcohol: 11.4 "
        "% vol}",
        "%"}},
      {"soluble solids after enrichment",
       {"{T: {volume: 100 hL, sugar: 230 g/L, @lot}}", "sugar.enrichment: {target potential alcohol: @sum % vol}",
        "°Brix", 0, 0, 3}},
      {"strength gained by tirage liqueur",
       {"{T: {volume: 100 hL, sugar: 1 g/L, ethanol: 10.5 % vol, tirage gained: @x % vol, @lot}}",
        "sugar.enrichment: {target potential alcohol: 10.7 % vol, rated pressure: 10 bar}", "% vol"}},
      {"strength gained by expedition liqueur",
       {"{T: {volume: 100 hL, sugar: 1 g/L, ethanol: 11 % vol, @lot}}",
        "sugar.dosage: {liqueur sugar: 600 g/L, liqueur ethanol: 60 % vol, target sugar: @sweet g/L}", "% vol", 0, 0,
        25}},
      {"expedition liqueur volume",
       {"{T: {volume: 100 hL, sugar: 1 g/L, ethanol: 11 % vol, @lot}}",
        "sugar.dosage: {liqueur sugar: 300 g/L, liqueur ethanol: 11 % vol, target sugar: @sweet g/L}", "%", 0, 0, 60}},
      {"strength after fortification",
       {"{T: {volume: 540 L, ethanol: 12 % vol, @lot}}",
        "sugar.fortification: {spirit: 77 % vol, target ethanol: @x % vol}", "% vol", 0.8, 1.2, 16}},
      {"least strength of liqueur wine",
       {"{T: {volume: 540 L, ethanol: 10 % vol, @lot}}",
        "sugar.fortification: {spirit: 77 % vol, target ethanol: @x % vol}", "% vol", 0.8, 1.2}},
      {"yeast water",
       {"{T: {volume: 48 hL, temperature: 14 °C, @lot}}", "ferment.yeast: {yeast dose: @dose g/hL}", "%", 0, 0, 100}},
  };
  return all;
}

// What is said on the sheet in other words than a check of its own: each has a test that is named here.
const std::set<std::string> told_otherwise{
    "sulfite declaration",  // LegalAgents.ContainsSulfitesIsSaid
    "label strength step",  // LabelStrength, all three
    "label strength tolerance", "label strength tax class",
    "least overpressure",  // a note: a lot does not say whether it is to be semi-sparkling
    "tannin residual"};    // a note: nobody doses the tannin that is there

const std::set<std::string> no_limits{"rules",  "title",     "note",        "includes",       "confirmed",
                                      "agents", "review by", "composition", "sweetness terms"};

YAML::Node file_of(const std::string& rules) {
  return YAML::LoadFile(VATWRIGHT_SOURCE_DIR "/host/rules/" + rules + ".yaml");
}

// What a row asks of the lot; a row that asks for nothing has an empty one.
YAML::Node asked_of(const YAML::Node& row) { return row["when"] ? row["when"] : YAML::Node(YAML::NodeType::Map); }

// "below 5 g/L" -> what is just below it.
std::string meeting(const std::string& condition) {
  const auto at = condition.find_first_of("0123456789");
  const auto space = condition.find(' ', at);
  const double figure = std::stod(condition.substr(at));
  const double met = condition.starts_with("below ")   ? figure * 0.998
                     : condition.starts_with("above ") ? std::max(figure * 1.02, 1.0)
                                                       : figure;
  return fmt::format("{:.6g}{}", met, condition.substr(space));
}

std::string lot_for(const YAML::Node& when, const std::string& lots) {
  std::map<std::string, std::string> said{{"stage", "wine"}, {"class", "still"}, {"colour", "white"},
                                          {"zone", "C I"},   {"sugar", "1 g/L"}, {"ethanol", "12 % vol"}};
  if (lots.find("sugar: 1") != std::string::npos || lots.find("sugar: 2") != std::string::npos) said.erase("sugar");
  if (lots.find("ethanol: ") != std::string::npos) said.erase("ethanol");
  const bool must = when["stage"] && when["stage"].as<std::string>() == "must";
  if (must) {
    said.erase("sugar");
    said.erase("ethanol");
  }
  for (const auto& condition : when) {
    const auto key = condition.first.as<std::string>();
    const auto text =
        condition.second.IsSequence() ? condition.second[0].as<std::string>() : condition.second.as<std::string>();
    const bool figure = text.starts_with("below ") || text.starts_with("above ") || text.starts_with("at ");
    said[key] = figure ? meeting(text) : text;
  }
  if (when["class"] && said["class"] == "liqueur" && !when["stage"]) said["stage"] = "wine";
  std::string out;
  for (const auto& [key, word] : said) out += fmt::format("{}{}: {}", out.empty() ? "" : ", ", key, word);
  return out;
}

std::string put(std::string text, const std::string& what, const std::string& in) {
  for (auto at = text.find(what); at != std::string::npos; at = text.find(what, at + in.size()))
    text.replace(at, what.size(), in);
  return text;
}

Worksheet run_way(const Way& way, const std::string& lot, double x, const std::string& rules) {
  static TestHouse house;
  const auto number = [](double n) { return fmt::format("{:.9f}", n); };
  std::string text = "recipe: test\nrules: " + rules + "\nlots: " + way.lots + "\nsteps:\n  - " + way.step + "\n";
  text = put(std::move(text), "@lot", lot);
  text = put(std::move(text), "@rest", number(100 - x));
  text = put(std::move(text), "@half", number(50 + x));
  text = put(std::move(text), "@other", number(50 - x));
  text = put(std::move(text), "@less", number(6 + x));
  text = put(std::move(text), "@sum", number(13.7 + x));
  text = put(std::move(text), "@sweet", number(2 + x));
  text = put(std::move(text), "@dose", number(10 + x));
  text = put(std::move(text), "@down", number(24 - x));
  text = put(std::move(text), "@fall", number(22.944 - x));
  return house.run(put(std::move(text), "@x", number(x)));
}

// A topic whose check is not there does not stand in the way.
bool stands_in_the_way(const Worksheet& sheet, const std::string& topic) {
  const auto* found = check(sheet.steps.at(0), topic + " limit, ");
  return found != nullptr && !found->holds;
}

struct Swept {
  int rows = 0, pairs = 0;
};

void sweep_row(const std::string& rules, const std::string& topic, const YAML::Node& row, Swept& swept) {
  const Way& way = ways().at(topic);
  const std::string sense = row["at most"] ? "at most" : row["below"] ? "below" : "at least";
  const auto figure = parse(row[sense].as<std::string>());
  const std::string lot = lot_for(asked_of(row), way.lots);
  SCOPED_TRACE(rules + ", " + topic + ", " + row[sense].as<std::string>() + ", " + lot);
  const double in_unit = way.low > 0 || way.high > 0 ? parse_unit(way.unit).number(figure.value) : 0;
  const bool searched = !(way.high > 0) || !(figure.value > 0);
  double low = searched ? 0 : in_unit * way.low, high = searched ? way.some : in_unit * way.high;
  if (topic == "residual tartaric acid") std::tie(low, high) = std::pair(0.05, 2.9);
  if (way.unit == "%" && way.high > 0 && way.high < 1) high = std::min(in_unit * 1.05, 99.99);
  const bool ceiling = sense != "at least";
  ++swept.rows;
  double inside = ceiling ? low : high, outside = ceiling ? high : low;
  EXPECT_TRUE(stands_in_the_way(run_way(way, lot, outside, rules), topic)) << "outside, " << outside;
  if (!(figure.value > 0)) return;  // nothing at all: there is no lot just inside
  // All of a thing: no share of another is small enough, and the sheet of one lot has no such blend.
  if (way.unit == "%" && in_unit >= 100) return;
  EXPECT_FALSE(stands_in_the_way(run_way(way, lot, inside, rules), topic)) << "inside, " << inside;
  constexpr int halvings = 16;
  for (int i = 0; i < halvings; ++i) {
    const double middle = (inside + outside) / 2;
    (stands_in_the_way(run_way(way, lot, middle, rules), topic) ? outside : inside) = middle;
  }
  const auto last = run_way(way, lot, outside, rules);
  const auto* fails = check(last.steps.at(0), topic + " limit, " + rules);
  ASSERT_NE(fails, nullptr);
  EXPECT_FALSE(fails->holds);
  EXPECT_NEAR(fails->limit->number, figure.value, 1e-9 * figure.value);
  // A doser goes in steps of 0.1 mL.
  const double near = topic.find("expedition") == std::string::npos ? 0.003 : 0.01;
  EXPECT_NEAR(fails->value->number, figure.value, near * figure.value);
  EXPECT_EQ(fails->value->number > figure.value || sense == "below", ceiling);
  ++swept.pairs;
}

TEST(LawSweep, EveryRowJustInsideAndJustOutside) {
  Swept swept;
  for (const std::string rules : {"EU", "EU organic", "OIV", "US", "house example"}) {
    const YAML::Node file = file_of(rules);
    for (const auto& topic : file) {
      const auto name = topic.first.as<std::string>();
      if (no_limits.contains(name) || told_otherwise.contains(name)) continue;
      ASSERT_TRUE(ways().contains(name)) << "no way to hold " << name << " of " << rules;
      for (const auto& row : topic.second) {
        try {
          sweep_row(rules, name, row, swept);
        } catch (const BadInput& error) {
          ADD_FAILURE() << rules << ", " << name << ": " << error.what();
        }
      }
    }
  }
  EXPECT_GE(swept.rows, 135);
  EXPECT_GE(swept.pairs, 95);
}

// What may be printed, at every row that bounds it.
TEST(LawSweep, StrengthOnTheLabel) {
  const auto fails = [](const std::string& rules, const std::string& lot, double stated, const char* what) {
    const auto step = run_step(lot, fmt::format("label.strength: {{stated strength: {:.6f} % vol}}", stated), rules);
    const auto* found = check(step, what);
    return found == nullptr || !found->holds;
  };
  int rows = 0;
  for (const std::string rules : {"EU", "OIV", "US"}) {
    const YAML::Node file = file_of(rules);
    for (const auto& row : file["label strength tolerance"]) {
      const double by = parse(row["at most"].as<std::string>()).value * 100;
      const std::string lot = lot_for(asked_of(row), {});
      const YAML::Node strong = asked_of(row)["ethanol"];
      const double found = strong ? parse(meeting(strong.as<std::string>())).value * 100 : 12;
      SCOPED_TRACE(rules + ", " + lot);
      // Down, so that no tax class lies between; above 14 % vol the class does.
      const double way = found > 14.1 ? 1 : -1;
      const char* what = way > 0 ? "stated strength, not too high" : "stated strength, not too low";
      EXPECT_FALSE(fails(rules, lot, found + way * by * 0.999, what));
      EXPECT_TRUE(fails(rules, lot, found + way * by * 1.001, what));
      ++rows;
    }
    for (const auto& row : file["label strength step"]) {
      const double step = parse(row["at least"].as<std::string>()).value * 100;
      EXPECT_FALSE(fails(rules, "ethanol: 12 % vol, class: still", 12 + step, "stated strength goes in steps"))
          << rules;
      EXPECT_TRUE(fails(rules, "ethanol: 12 % vol, class: still", 12 + step / 2, "stated strength goes in steps"))
          << rules;
      ++rows;
    }
  }
  EXPECT_FALSE(fails("US", "ethanol: 13.9 % vol", 14, "stated strength, not too high"));
  EXPECT_TRUE(fails("US", "ethanol: 13.9 % vol", 14.01, "stated strength, not too high"));
  EXPECT_EQ(rows, 6);
}

}  // namespace law_sweep_test
}  // namespace vatwright::test
