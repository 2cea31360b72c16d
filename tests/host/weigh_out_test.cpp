// The weigh-out list, what must be kept apart, and typical uncertainties.
#include "host/bench/weigh_out.hpp"

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <random>

#include "host/bench/measure_first.hpp"
#include "host/bench/typical.hpp"
#include "host/plugin/lot.hpp"
#include "host/sheet/to_do.hpp"
#include "host/sheet/writers.hpp"
#include "tests/host/sheets.hpp"
#include "units/parse.hpp"

namespace weigh_out_test {

using namespace vatwright;
using namespace vatwright::test;

const fs::path data_dir = build_dir / "share/vatwright";

constexpr char acid_and_sulfite[] =
    "recipe: test\nlots:\n  A: {volume: 10 hL, pH: 3.5, titratable acidity: 5 g/L as tartaric acid, free SO2: 10 mg/L, "
    "total SO2: 50 mg/L, ethanol: 12 % vol, stage: wine}\n"
    "  B: {volume: 20 hL, pH: 3.3, free SO2: 10 mg/L, total SO2: 50 mg/L, stage: wine}\nsteps:\n"
    "  - acid.addition: {lot: A, target pH: 3.4}\n"
    "  - sulfite.addition: {lot: A, target free SO2: 25 mg/L}\n"
    "  - sulfite.addition: {lot: B, target free SO2: 25 mg/L}\n";

TEST(WeighOut, ListsEveryAdditionAndTheTotals) {
  TestHouse house;
  const auto sheet = house.run(acid_and_sulfite);
  const auto& list = sheet.weigh_out;
  ASSERT_EQ(list.lines.size(), 3U);
  ASSERT_EQ(list.totals.size(), 2U);
  EXPECT_EQ(list.totals[0].all.substance, "tartaric acid");
  EXPECT_EQ(list.totals[1].additions, 2U);
  const auto mass = [&](std::size_t step) { return sheet.steps[step].outcome.additions[0].mass->value(); };
  EXPECT_DOUBLE_EQ(list.totals[1].all.mass->value(), mass(1) + mass(2));
}

TEST(WeighOut, AcidAndSulfiteAreKeptApart) {
  TestHouse house;
  const auto sheet = house.run(acid_and_sulfite);
  ASSERT_EQ(sheet.weigh_out.apart.size(), 1U);
  EXPECT_EQ(sheet.weigh_out.apart[0].one->facts.id, "tartaric acid");
  EXPECT_EQ(sheet.weigh_out.apart[0].other->facts.id, "potassium metabisulfite");
  EXPECT_NE(write_text(sheet, {}).find("KEEP APART"), std::string::npos);
  EXPECT_NE(write_html(sheet).find("Keep apart"), std::string::npos);
  EXPECT_NE(write_json(sheet).find("\"keep apart\": ["), std::string::npos);
}

TEST(WeighOut, OneAdditionHasNoListOfItsOwn) {
  TestHouse house;
  const auto sheet = house.run(recipe_with("", "  - sulfite.addition: {target free SO2: 25 mg/L}\n"));
  EXPECT_EQ(sheet.weigh_out.lines.size(), 1U);
  EXPECT_EQ(write_text(sheet, {}).find("WEIGH-OUT"), std::string::npos);
}

// What is weighed and what is measured out make two totals, each with its own lines: in the list and in the JSON.
TEST(WeighOut, MassesAndVolumesAreTotalledApart) {
  const TestHouse house;
  Worksheet sheet;
  for (const auto* lot : {"A", "B", "C"}) {
    sheet.steps.push_back(step_adding(house, {"tartaric acid"}));
    sheet.steps.back().lot = lot;
  }
  sheet.steps[0].outcome.additions[0].mass = 100.0 * gram;
  sheet.steps[1].outcome.additions[0].mass.reset();
  sheet.steps[1].outcome.additions[0].volume = 1.0 * litre;
  sheet.steps[2].outcome.additions[0].mass = 50.0 * gram;
  sheet.weigh_out = weigh_out(sheet.steps, Apart(data_dir / "apart.yaml"));
  ASSERT_EQ(sheet.weigh_out.totals.size(), 2U);
  EXPECT_DOUBLE_EQ(sheet.weigh_out.totals[0].all.mass->value(), 0.150);
  const auto json = nlohmann::json::parse(write_json(sheet));
  std::string lots;
  for (const auto& total : json["weigh out"]) {
    for (const auto& line : total["lines"]) lots += line["lot"].get<std::string>();
    lots += ' ';
  }
  EXPECT_EQ(lots, "AC B ");
}

// --- the order of the work

// "T7 tartaric acid" of each line.
std::vector<std::string> order_of(const std::vector<StepSheet>& steps) {
  static const Apart apart(data_dir / "apart.yaml");
  std::vector<std::string> out;
  for (const auto& line : weigh_out(steps, apart).lines)
    out.push_back(steps[line.step].lot + " " + steps[line.step].outcome.additions[line.addition].substance);
  return out;
}

StepSheet step_on(const TestHouse& house, const std::string& lot, const std::vector<std::string_view>& substances) {
  StepSheet step = step_adding(house, substances);
  step.lot = lot;
  return step;
}

constexpr char dap[] = "diammonium phosphate", acid[] = "tartaric acid";

TEST(WeighOut, AllFirstPortionsComeBeforeAnySecond) {
  const TestHouse house;
  EXPECT_EQ(order_of({step_on(house, "A", {"thiamine hydrochloride", dap, dap}), step_on(house, "B", {dap, dap, dap}),
                      step_on(house, "C", {dap})}),
            (std::vector<std::string>{"A thiamine hydrochloride", "A diammonium phosphate", "B diammonium phosphate",
                                      "C diammonium phosphate", "A diammonium phosphate", "B diammonium phosphate",
                                      "B diammonium phosphate"}));
}

TEST(WeighOut, ALaterStepWaitsForThePortionsOfItsLot) {
  const TestHouse house;
  EXPECT_EQ(order_of({step_on(house, "A", {dap, dap}), step_on(house, "A", {acid}), step_on(house, "B", {acid})}),
            (std::vector<std::string>{"A diammonium phosphate", "B tartaric acid", "A diammonium phosphate",
                                      "A tartaric acid"}));
  auto blend = step_on(house, "", {});
  blend.outcome.new_lots.push_back({"AB"});
  EXPECT_EQ(order_of({step_on(house, "A", {dap, dap}), blend, step_on(house, "AB", {acid})}),
            (std::vector<std::string>{"A diammonium phosphate", "A diammonium phosphate", "AB tartaric acid"}));
}

// --- what waits for its moment

// A step that adds the acid at once, or the nutrient in two portions, later.
StepSheet later(const TestHouse& house, const std::string& lot) {
  StepSheet step = step_on(house, lot, {dap, dap});
  step.outcome.additions[0].when = "portion 1";
  step.outcome.additions[1].when = "portion 2";
  return step;
}

// That `step` takes its pH from the forecast of steps[earlier].
StepSheet resting_on(StepSheet step, std::size_t earlier) {
  step.inputs[0].from = {Origin::Of::forecast, earlier};
  return step;
}

TEST(WeighOut, WhatNeedNotWaitComesFirst) {
  const TestHouse house;
  EXPECT_EQ(order_of({later(house, "A"), step_on(house, "A", {acid}), later(house, "B"), step_on(house, "B", {acid})}),
            (std::vector<std::string>{"A tartaric acid", "B tartaric acid", "A diammonium phosphate",
                                      "B diammonium phosphate", "A diammonium phosphate", "B diammonium phosphate"}));
}

TEST(WeighOut, WhatRestsOnItsForecastWaitsWithIt) {
  const TestHouse house;
  EXPECT_EQ(order_of({later(house, "A"), resting_on(step_on(house, "A", {acid}), 0), step_on(house, "B", {acid})}),
            (std::vector<std::string>{"B tartaric acid", "A diammonium phosphate", "A diammonium phosphate",
                                      "A tartaric acid"}));
}

TEST(WeighOut, WhatIsLeftOfALotThatIsJoinedComesAfterTheJoin) {
  const TestHouse house;
  auto blend = step_on(house, "", {});
  blend.outcome.new_lots.push_back({"AB"});
  blend.outcome.drawn.push_back({"B", 100.0 * litre});
  EXPECT_EQ(order_of({later(house, "A"), blend, step_on(house, "AB", {acid}), step_on(house, "B", {acid})}),
            (std::vector<std::string>{"A diammonium phosphate", "A diammonium phosphate", "AB tartaric acid",
                                      "B tartaric acid"}));
}

// What waits is not to be mixed and measured before what does not.
TEST(WeighOut, NothingIsMeasuredAfterWhatComesLater) {
  const TestHouse house;
  const auto sulfite = step_on(house, "A", {"potassium metabisulfite"});
  const auto tartaric = resting_on(step_on(house, "A", {acid}), 0);
  const auto first = measure_first(tartaric, {sulfite, later(house, "A")});
  ASSERT_TRUE(first);
  EXPECT_EQ(first->after, 0U);
  EXPECT_FALSE(measure_first(step_on(house, "A", {acid}), {later(house, "A")}));
  EXPECT_TRUE(measure_first(tartaric, {later(house, "A")})) << "it takes the forecast of the portions";
}

// A row of a table lists in the same order.
TEST(WeighOut, ARowOfATableHasTheSameOrder) {
  const Folder folder;
  const auto recipe = folder.write("r.yaml",
                                   "recipe: test\nlots:\n  each: {stage: must, colour: pink, class: still}\nsteps:\n"
                                   "  - nutrient.nitrogen: {strain need: medium}\n"
                                   "  - sulfite.addition: {target free SO2: 25 mg/L}\n");
  const auto table = folder.write("t.csv",
                                  "lot,volume [hL],pH,free SO2 [mg/L],total SO2 [mg/L],sugar [g/L],assimilable "
                                  "nitrogen [mg/L as nitrogen]\nA,20,3.3,0,0,200,110\n");
  for (const char* format : {"csv", "html"}) {
    const auto out = call({"run", recipe.string(), "--lots", table.string(), "--format", format}).out;
    const auto sulfite = out.find("of potassium metabisulfite"), nutrient = out.find("of diammonium phosphate");
    ASSERT_NE(sulfite, std::string::npos) << format;
    ASSERT_NE(nutrient, std::string::npos) << format;
    EXPECT_LT(sulfite, nutrient) << format;
    EXPECT_NE(out.find("portion 2 of 2", nutrient), std::string::npos) << format;
  }
}

TEST(WeighOut, ATotalIsNoFinerThanABalanceShowsIt) {
  const TestHouse house;
  const auto total = [&](double one, double other) {
    std::vector<StepSheet> steps{step_on(house, "A", {acid, acid})};
    steps[0].outcome.additions[0].mass = one * gram;
    steps[0].outcome.additions[1].mass = other * gram;
    return total_words(weigh_out(steps, Apart(data_dir / "apart.yaml")).totals.at(0));
  };
  EXPECT_EQ(total(4020, 4.09), "4.02 kg of tartaric acid in all");
  EXPECT_EQ(total(162.8, 35.8), "198.6 g of tartaric acid in all");
  EXPECT_EQ(total(16660, 17460), "34.1 kg of tartaric acid in all");
}

// As a recipe has it: two musts, each with its nutrient in two portions.
TEST(WeighOut, ARecipeOfTwoMusts) {
  TestHouse house;
  const auto sheet =
      house.bench().run(read_recipe(Document::open((source_dir / "recipes/nutrient-for-a-must.yaml").string())));
  std::vector<std::string> portions;
  for (const auto& line : sheet.weigh_out.lines)
    if (const auto& step = sheet.steps[line.step]; step.outcome.additions[line.addition].substance == dap)
      portions.push_back(step.lot + " " + step.outcome.additions[line.addition].when.substr(0, 12));
  EXPECT_EQ(portions,
            (std::vector<std::string>{"T7 portion 1 of", "T8 portion 1 of", "T7 portion 2 of", "T8 portion 2 of"}));
}

TEST(Apart, EverySubstanceIsInTheCatalogue) {
  const Catalogue catalogue(data_dir / "substances.yaml");
  const Apart apart(data_dir / "apart.yaml");
  ASSERT_GE(apart.rules().size(), 5U);
  for (const auto& rule : apart.rules()) {
    for (const auto* side : {&rule.one, &rule.other})
      for (const auto& id : *side) EXPECT_NE(catalogue.find(id), nullptr) << rule.name << ": " << id;
    EXPECT_FALSE(rule.source.empty()) << rule.name;
  }
}

// What the table says of these two; empty when they may meet.
std::string because(const std::string& a, const std::string& b) {
  static const Catalogue catalogue(data_dir / "substances.yaml");
  static const Apart apart(data_dir / "apart.yaml");
  const auto pairs = apart.among({catalogue.find(a), catalogue.find(b)});
  EXPECT_LE(pairs.size(), 1U) << a << ", " << b;
  return pairs.empty() ? "" : pairs[0].because;
}

TEST(Apart, PairsThatMustNotMeet) {
  EXPECT_NE(because("citric acid", "sodium metabisulfite"), "");
  EXPECT_NE(because("potassium metabisulfite", "hydrogen peroxide solution"), "");
  EXPECT_NE(because("calcium carbonate", "tartaric acid"), "");
  EXPECT_NE(because("metatartaric acid", "potassium metabisulfite"), "");
  EXPECT_NE(because("metatartaric acid", "potassium bicarbonate"), "");
  EXPECT_EQ(because("sucrose", "tartaric acid"), "");
}

// The catalogue's own cautions say of lysozyme that it clouds with tannin, carboxymethylcellulose and
// metatartaric acid, and of polyaspartate that it is not used together with lysozyme.
TEST(Apart, LysozymeAndWhatCloudsWithIt) {
  for (const auto* other : {"carboxymethylcellulose", "metatartaric acid", "potassium polyaspartate", "tannin"})
    EXPECT_NE(because("lysozyme", other).find("cloud"), std::string::npos) << other;
}

// A reagent never goes into wine: nothing may be said of what goes into the tank first.
TEST(Apart, ALaboratoryAcidIsKeptAway) {
  for (const auto* other : {"potassium metabisulfite", "calcium carbonate"}) {
    const auto words = because("phosphoric acid", other);
    EXPECT_NE(words.find("never goes into wine"), std::string::npos) << other;
    EXPECT_EQ(words.find("tank"), std::string::npos) << other;
  }
}

// The recipe says whether acid or sulfite goes in first; the box above its list may not say otherwise.
TEST(Apart, SaysNothingOfTheOrderOfAcidAndSulfite) {
  const auto words = because("tartaric acid", "potassium metabisulfite");
  EXPECT_NE(words.find("toxic"), std::string::npos);
  EXPECT_EQ(words.find("first"), std::string::npos) << words;
  EXPECT_EQ(words.find("then the sulfite"), std::string::npos) << words;
}

// Every acid of that pair is told of in its own entry, too.
TEST(Apart, EveryAcidIsKeptAwayFromDrySulfites) {
  const Catalogue catalogue(data_dir / "substances.yaml");
  const Apart apart(data_dir / "apart.yaml");
  for (const auto& rule : apart.rules()) {
    if (rule.name != "acid and sulfite") continue;
    EXPECT_GE(rule.one.size(), 8U);
    for (const auto& id : rule.one) {
      const auto& cautions = catalogue.find(id)->cautions;
      EXPECT_TRUE(std::any_of(cautions.begin(), cautions.end(), [](const std::string& caution) {
        return caution.find("away from dry sulfites") != std::string::npos;
      })) << id;
    }
  }
}

// --- uncertainty: typical

constexpr char typical_lot[] =
    "recipe: test\nuncertainty: typical\nlots: {A: {pH: 3.4, free SO2: 20 mg/L, total SO2: 80 ± 3 mg/L}}\n"
    "steps: [sulfite.molecular]\n";

// r = 1 mg/L of free sulfur dioxide (OIV-MA-AS323-04A, from memory) is 1 / 2.8 = 0.36 mg/L standard
// (ISO 5725-6, from memory).
TEST(Typical, ReadingsWithoutTheirOwnTakeThePublishedOne) {
  TestHouse house;
  const auto sheet = house.run(typical_lot);
  EXPECT_EQ(sheet.uncertainty.readings, 3U);
  for (const auto& used : sheet.steps[0].inputs) {
    if (used.input == &lot::free_so2) {
      EXPECT_NEAR(used.value.uncertainty * 1e3, 1 / 2.8, 1e-9);
      EXPECT_EQ(shown(*used.input, used.value), "20 mg/L (± 0.36 mg/L, typical)");
    }
    if (used.input == &lot::total_so2) {
      EXPECT_NEAR(used.value.uncertainty * 1e3, 3, 1e-9);
    }
  }
}

TEST(Typical, IsAskedForInItsOwnWord) {
  EXPECT_NE(complaint("recipe: test\nuncertainty: usual\nlots: {A: {pH: 3.4}}\nsteps: [sulfite.molecular]\n")
                .find("expected 'typical' or 'from book', read 'usual'"),
            std::string::npos);
}

TEST(Typical, EveryRowIsOfALotKeyAndAboveZero) {
  const auto file = data_dir / "typical.yaml";
  const Typical typical(file);
  const Sections rows(file);
  ASSERT_GE(rows.names().size(), 9U);
  for (const auto name : rows.names()) {
    const Input* key = find_lot_key(name);
    ASSERT_NE(key, nullptr) << name;
    Value value;
    value.number = parse_unit(key->unit).coherent((key->valid->low + key->valid->high) / 2);
    value.written = "as read";
    typical.tell(*key, value);
    EXPECT_GT(value.uncertainty, 0) << name;
    EXPECT_TRUE(value.typical) << name;
  }
}

// 0.10 % vol (OIV-MA-AS312-01A, from memory) in 2.8 standard uncertainties (ISO 5725-6, from memory).
TEST(Typical, ARowIsTakenInItsUnit) {
  Value value;
  value.number = 12e-2;
  value.written = "12 % vol";
  Typical(data_dir / "typical.yaml").tell(lot::ethanol, value);
  EXPECT_NEAR(value.uncertainty, 0.0010 / 2.8, 1e-9);
}

TEST(Typical, ARowThatIsNotAboveZeroIsRefused) {
  const Folder folder;
  for (const auto* row : {"reproducibility: 0 pH", "reproducibility: -0.06 pH", "reproducibility share: 0 %"}) {
    const auto file = folder.write("typical.yaml", std::string("pH:\n  ") + row + "\n  source: mine\n");
    try {
      const Typical typical(file);
      FAIL() << row;
    } catch (const BadInput& error) {
      EXPECT_NE(std::string(error.what()).find("typical.yaml:2:"), std::string::npos) << error.what();
      EXPECT_NE(std::string(error.what()).find("is not above zero"), std::string::npos) << error.what();
    }
  }
}

// Where only some of the table is read, it says of them what the whole of it says.
TEST(ApartTest, ThePartThatIsReadSaysTheSame) {
  const TestHouse house;
  const Apart whole(data_dir / "apart.yaml");
  std::vector<std::string> named;
  for (const auto& rule : whole.rules())
    for (const auto* list : {&rule.one, &rule.other}) named.insert(named.end(), list->begin(), list->end());
  for (const auto& rule : whole.rules())
    for (const auto& one : rule.one) EXPECT_EQ(std::count(rule.other.begin(), rule.other.end(), one), 0) << one;
  std::mt19937 random(5);
  for (int turn = 0; turn < 200; ++turn) {
    std::vector<const Substance*> substances;
    for (std::size_t n = 0; n < 1 + random() % 5; ++n) {
      const std::string& id = named[random() % named.size()];
      substances.push_back(house.catalogue.find(id));
      ASSERT_NE(substances.back(), nullptr) << id;
    }
    const auto all = whole.among(substances), some = Apart(data_dir / "apart.yaml", substances).among(substances);
    ASSERT_EQ(all.size(), some.size());
    for (std::size_t i = 0; i < all.size(); ++i) {
      EXPECT_EQ(all[i].one, some[i].one);
      EXPECT_EQ(all[i].other, some[i].other);
      EXPECT_EQ(all[i].because, some[i].because);
    }
  }
}

}  // namespace weigh_out_test
