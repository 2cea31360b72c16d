// Hazards by the strength of a solution, and the law's words in the languages of the cellar.
#include "tests/plugins/run.hpp"

#include "host/sheet/writers.hpp"
#include "host/substances/strong.hpp"

#include <gtest/gtest.h>
#include <yaml-cpp/yaml.h>

#include <algorithm>
#include <array>
#include <set>
#include <string>

namespace languages_test {

using namespace vatwright;
using namespace vatwright::test;

std::set<std::string> codes(const Substance& substance) {
  std::set<std::string> out;
  for (const auto& hazard : substance.hazards) out.insert(hazard.code);
  return out;
}

std::set<std::string> codes_at(std::string_view id, std::string_view strength) {
  static const TestHouse house;
  return codes(*house.catalogue.find(id, {strength}));
}

using Codes = std::set<std::string>;

TEST(HazardStrength, TheStrengthPicksTheRows) {
  EXPECT_EQ(codes_at("lactic acid", "80 % mass"), (Codes{"H314", "H318"}));
  EXPECT_EQ(codes_at("lactic acid", "2 % mass"), (Codes{"H315", "H319"}));
  EXPECT_EQ(codes_at("sulfur dioxide solution", "60 g/L SO2"), (Codes{"H314", "H335"}));
  EXPECT_EQ(codes_at("sulfur dioxide solution", "20 g/L SO2"), (Codes{"H315", "H319", "H335"}));
  EXPECT_EQ(codes_at("grape spirit", "96 % vol"), (Codes{"H225", "H319"}));
  EXPECT_EQ(codes_at("grape spirit", "52 % vol"), (Codes{"H226"}));
  // 0.1 mol/L of sodium hydroxide is 4 g/L, 1 mol/L is 40 g/L.
  EXPECT_EQ(codes_at("sodium hydroxide solution", "0.1 mol/L"), (Codes{"H290"}));
  EXPECT_EQ(codes_at("sodium hydroxide solution", "1 mol/L"), (Codes{"H290", "H314"}));
  EXPECT_EQ(codes_at("hydrogen peroxide solution", "30 % mass"), (Codes{"H302", "H318"}));
  EXPECT_EQ(codes_at("hydrogen peroxide solution", "70 % mass"), (Codes{"H271", "H302", "H314", "H332", "H335"}));
}

// What says no strength, or one that cannot be read, leaves every row, each with its strength beside it.
TEST(HazardStrength, WithoutAStrengthAllRowsStand) {
  static const TestHouse house;
  for (const auto id : house.catalogue.names()) {
    const Substance* any = house.catalogue.find(id);
    for (const char* strength : {"", "strong", "60", "3 hL"})
      EXPECT_EQ(codes(*house.catalogue.find(id, {strength})), codes(*any)) << id << ", " << strength;
    for (const auto& hazard : any->hazards)
      EXPECT_TRUE(hazard.strength.everywhere() || hazard.text.ends_with(" (" + hazard.strength.words() + ")"))
          << id << ": " << hazard.text;
  }
}

// A row counts from its own strength on, and a weaker solution never burns what a stronger one does not.
TEST(HazardStrength, AtEveryBoundOfTheCatalogue) {
  static const TestHouse house;
  const YAML::Node table = YAML::LoadFile(VATWRIGHT_SOURCE_DIR "/host/substances/substances.yaml");
  int bounds = 0;
  for (const auto& entry : table) {
    if (!entry.second.IsMap()) continue;
    const auto id = entry.first.as<std::string>();
    for (const auto& hazard : entry.second["hazards"])
      for (const char* end : {"from", "below"}) {
        if (!hazard[end]) continue;
        ++bounds;
        const auto written = hazard[end].as<std::string>();
        const double at = std::stod(written);
        const std::string unit = written.substr(written.find(' '));
        const auto has_it = [&](double share) {
          return codes(*house.catalogue.find(id, {std::to_string(share) + unit}))
              .contains(hazard["code"].as<std::string>());
        };
        const bool begins = std::string_view(end) == "from";
        EXPECT_EQ(has_it(at), begins) << id << ", " << written;
        EXPECT_EQ(has_it(at * 0.999), !begins) << id << ", " << written;
      }
  }
  EXPECT_GT(bounds, 60);
}

TEST(HazardStrength, ADoseShowsTheHazardsOfItsStrength) {
  const std::string lot = "volume: 10 hL, pH: 3.5, titratable acidity: 5 g/L as tartaric acid, stage: wine";
  const auto strong =
      run_step(lot, "acid.addition: {substance: lactic acid, strength: 80 % mass, target pH: 3.45}").added.at(0);
  EXPECT_EQ(codes(*strong), (Codes{"H314", "H318"}));
  const auto titrated =
      run_step("volume: 10 hL",
               "acid.titration: {titrant: 6.8 mL, titrant concentration: 0.1 mol/L, sample: 10 mL, endpoint: 7.0}");
  ASSERT_EQ(titrated.reagents.size(), 1U);
  EXPECT_EQ(codes(*titrated.reagents[0]), (Codes{"H290"}));
  // First aid stays, whatever the strength.
  EXPECT_TRUE(std::ranges::any_of(titrated.reagents[0]->cautions,
                                  [](const std::string& c) { return c.starts_with("First aid, eyes"); }));
}

// Directive (EU) 2017/164: 0.5 ppm over 8 h, 1 ppm short term (from memory); 29 CFR 1910.1000: 5 ppm.
TEST(AtWork, TheLimitIsThatOfTheRules) {
  const auto line = [](const std::string& rules) {
    const auto step = run_step("volume: 48 hL, pH: 3.42, free SO2: 14 mg/L, total SO2: 62 mg/L",
                               "sulfite.addition: {target free SO2: 24 mg/L}", rules);
    for (const auto& caution : step.added.at(0)->cautions)
      if (caution.starts_with("The limit at work is ")) return caution;
    return std::string();
  };
  EXPECT_TRUE(line("EU").starts_with("The limit at work is 0.5 ppm")) << line("EU");
  EXPECT_EQ(line("EU").find("US"), std::string::npos);
  EXPECT_TRUE(line("EU organic").starts_with("The limit at work is 0.5 ppm"));
  EXPECT_TRUE(line("US").starts_with("The limit at work is 5 ppm")) << line("US");
  EXPECT_NE(line("EU, US").find("(EU: "), std::string::npos);
  EXPECT_NE(line("EU, US").find("(US: "), std::string::npos);
  // Where none is named, the strictest.
  EXPECT_TRUE(line("").starts_with("The limit at work is 0.5 ppm")) << line("");
  EXPECT_NE(line("OIV").find("the strictest that is known here"), std::string::npos) << line("OIV");
}

const std::string sulfited =
    "lots: {T7: {volume: 48 hL, pH: 3.42, free SO2: 14 mg/L, total SO2: 62 mg/L, stage: wine}}\n"
    "steps:\n  - sulfite.addition: {target free SO2: 24 mg/L}\n";

std::string sheet_in(const std::string& languages) {
  static TestHouse house;
  return write_text(house.run("recipe: test\nrules: EU\n" + languages + sulfited), {});
}

TEST(Languages, StandBesideTheEnglish) {
  const auto french = sheet_in("language: fr\n");
  EXPECT_NE(french.find("H318 causes serious eye damage"), std::string::npos) << french;
  EXPECT_NE(french.find("fr: Provoque de graves lésions des yeux."), std::string::npos) << french;
  EXPECT_NE(french.find("! Danger"), std::string::npos);
  EXPECT_NE(french.find("'sulfites' is fr: sulfites"), std::string::npos) << french;
  EXPECT_NE(french.find("Contient des sulfites"), std::string::npos) << french;
  const auto two = sheet_in("language: [de, hu]\n");
  EXPECT_NE(two.find("de: Gefahr"), std::string::npos);
  EXPECT_NE(two.find("Enthält Sulfite; hu: the official wording is not"), std::string::npos) << two;
  EXPECT_NE(two.find("one place only"), std::string::npos);
  const auto english = sheet_in("");
  EXPECT_EQ(english.find("Provoque"), std::string::npos);
  EXPECT_EQ(english.find("! Danger"), std::string::npos);
}

TEST(Languages, AnUnknownOneIsRefusedWithTheList) {
  const auto said = complaint("recipe: test\nlanguage: xx\n" + sulfited);
  EXPECT_NE(said.find("no language 'xx'"), std::string::npos) << said;
  EXPECT_NE(said.find("de, el, es, fr"), std::string::npos) << said;
  EXPECT_NE(said.find("recipe.yaml:2:11"), std::string::npos) << said;
}

// On the command line too; a sheet in JSON keeps what was asked for, and is verified with it.
TEST(Languages, OnTheCommandLineAndVerified) {
  const Folder folder;
  const auto recipe = folder.write("recipe.yaml", "recipe: test\n" + sulfited);
  const auto sheet = (folder.path() / "sheet.json").string();
  const auto made =
      call({"run", recipe.string(), "--language", "fr", "--language", "pl", "--format", "json", "--out", sheet});
  EXPECT_EQ(made.status, 0) << made.err;
  EXPECT_NE(contents(sheet).find("\"languages\""), std::string::npos);
  EXPECT_NE(contents(sheet).find("Niebezpieczeństwo"), std::string::npos);
  EXPECT_EQ(call({"verify", sheet}).status, 0);
  const auto wrong = call({"run", recipe.string(), "--language", "xx"});
  EXPECT_EQ(wrong.status, 2);
  EXPECT_NE(wrong.err.find("no language 'xx'"), std::string::npos) << wrong.err;
}

// Every code of the catalogue has its statement in every language, in the law's words; the English of the catalogue is
// the law's too, but for its first letter and the route it names.
TEST(Languages, EveryCodeHasItsStatement) {
  const auto folder = build_dir / "share/vatwright/languages";
  const auto all = language_codes(folder);
  EXPECT_EQ(all.size(), 9U);
  static const TestHouse house;
  for (const auto& code : all) {
    const Language language = named_language(folder, code);
    for (const char* word : {"Danger", "Warning", "sulfites", "milk", "egg"})
      EXPECT_FALSE(language.say(word).text.empty()) << code << ": " << word;
    EXPECT_EQ(language.say("contains sulfites").text.empty(), code == "hu");
    for (const auto id : house.catalogue.names())
      for (const auto& hazard : house.catalogue.find(id)->hazards)
        EXPECT_TRUE(language.say(hazard.code).text.ends_with(".")) << code << ": " << hazard.code;
  }
}

// Regulation (EC) No 1272/2008, Annex I: what kills, burns or blinds is a danger.
TEST(Languages, TheSignalWordIsThatOfTheGravest) {
  static const TestHouse house;
  for (const auto id : house.catalogue.names()) {
    const auto& substance = *house.catalogue.find(id);
    const auto has_code = codes(substance);
    const bool grave =
        std::ranges::any_of(std::array{"H225", "H271", "H272", "H314", "H318", "H330", "H331", "H334", "H350", "H370"},
                            [&](const char* code) { return has_code.contains(code); });
    EXPECT_EQ(substance.signal == "Danger", grave) << id;
  }
}

}  // namespace languages_test
