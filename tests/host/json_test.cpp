// The worksheet for other programs: its members and its schema.
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "host/sheet/writers.hpp"
#include "tests/host/house.hpp"

namespace json_test {

using namespace vatwright;
using namespace vatwright::test;
using Json = nlohmann::json;

std::string demo_file() { return (source_dir / "recipes/before-bottling.yaml").string(); }

Json demo() {
  const auto said = call({"run", demo_file(), "--format", "json"});
  EXPECT_EQ(said.status, 0) << said.err;
  return Json::parse(said.out);
}

TEST(JsonTest, MembersOfTheSheet) {
  const Json sheet = demo();
  EXPECT_EQ(sheet["sheet"], 1);
  EXPECT_EQ(sheet["program"].get<std::string>().substr(0, 10), "vatwright ");
  EXPECT_EQ(sheet["recipe"]["title"], "Pink, tank 7, before bottling");
  EXPECT_EQ(sheet["rules"], Json{"EU"});
  EXPECT_EQ(sheet["holds"], true);
  ASSERT_EQ(sheet["steps"].size(), 2U);
  const Json& step = sheet["steps"][1];
  EXPECT_EQ(step["calculation"], "sulfite.addition");
  EXPECT_EQ(step["plugin"], "sulfite 0.1.0");
  EXPECT_EQ(step["lot"], "T7");
  EXPECT_EQ(step["inputs"]["pH"], (Json{{"value", 3.42}, {"unit", "pH"}, {"from", "lot"}, {"uncertainty", 0.02}}));
  EXPECT_EQ(step["results"]["added SO2"]["unit"], "mg/L");
  ASSERT_EQ(step["additions"].size(), 1U);
  EXPECT_EQ(step["additions"][0]["substance"], "potassium metabisulfite");
  EXPECT_EQ(step["additions"][0]["amount"]["unit"], "g");
  EXPECT_EQ(step["additions"][0]["dose"]["unit"], "g/hL");
  EXPECT_FALSE(step["additions"][0]["cautions"].empty());
  ASSERT_FALSE(step["checks"].empty());
  for (const auto* member : {"name", "holds", "value", "limit", "source"})
    EXPECT_TRUE(step["checks"][0].contains(member)) << member;
  EXPECT_FALSE(step["checks"][0].contains("limit on")) << "a closing check holds no figure of a rule";
  EXPECT_EQ(step["checks"].back()["limit on"], "total SO2");
  EXPECT_TRUE(step["notes"].is_array());
  EXPECT_TRUE(sheet["lots"]["T7"].contains("before"));
  EXPECT_GT(sheet["lots"]["T7"]["after"]["free SO2"]["value"], sheet["lots"]["T7"]["before"]["free SO2"]["value"]);
}

// The amount, the dose and the volume are one statement said three times.
TEST(JsonTest, AmountDoseAndVolumeAgree) {
  const Json step = demo()["steps"][1];
  const double grams = step["additions"][0]["amount"]["value"], dose = step["additions"][0]["dose"]["value"];
  const double litres = step["inputs"]["volume"]["value"];
  EXPECT_NEAR(grams, dose * litres / 100, 1e-9 * grams);
}

TEST(JsonTest, TheHashIsThatOfTheFile) {
  FILE* pipe = ::popen(("sha256sum " + quoted(demo_file())).c_str(), "r");
  ASSERT_NE(pipe, nullptr);
  char sum[65]{};
  ASSERT_EQ(std::fread(sum, 1, 64, pipe), 64U);
  ::pclose(pipe);
  EXPECT_EQ(demo()["recipe"]["sha256"], std::string(sum));
}

// The readings of a series keep their ±, each beside its own; where one has none it is 0.
TEST(JsonTest, ReadingsOfASeriesKeepTheirUncertainty) {
  const auto said =
      call({"compute", "cold.protein", "volume=36 hL",
            "series={0 g/hL: 14.2 ± 0.4 NTU, 20 g/hL: 5.1 NTU, 40 g/hL: 1.6 ± 0.2 NTU}", "--format", "json"});
  ASSERT_LE(said.status, 1) << said.err;
  const auto series = Json::parse(said.out)["steps"][0]["inputs"]["series"];
  EXPECT_EQ(series["uncertainties"], (Json{0.4, 0, 0.2})) << series;
  EXPECT_EQ(series["value"].size(), 3U);
  const auto without = call({"compute", "cold.protein", "volume=36 hL",
                             "series={0 g/hL: 14.2 NTU, 20 g/hL: 5.1 NTU, 40 g/hL: 1.6 NTU}", "--format", "json"});
  EXPECT_FALSE(Json::parse(without.out)["steps"][0]["inputs"]["series"].contains("uncertainties"));
}

// --- the schema

Said validate(const std::string& sheet) {
  const Folder folder;
  const auto file = folder.write("sheet.json", sheet);
  const std::string script =
      "import json, sys\n"
      "try:\n  import jsonschema\n"
      "except ImportError:\n  sys.exit(9)\n"
      "jsonschema.validate(json.load(open(sys.argv[1])), json.load(open(sys.argv[2])))\n";
  return run_program("python3",
                     {"-c", script, file.string(), (source_dir / "host/sheet/worksheet.schema.json").string()});
}

constexpr int no_validator = 9;

TEST(SchemaTest, SheetsAreValid) {
  const Folder folder;
  const auto failing = folder.write("failing.yaml",
                                    "rules: EU\nrecipe: test\nlots: {T7: {pH: 3.4, free SO2: 14 mg/L, total SO2: 400 "
                                    "mg/L, colour: red, class: still, stage: wine}}\nsteps: [sulfite.molecular]\n");
  const auto dosing =
      folder.write("dosing.yaml", "recipe: test\nlots: {A: {volume: 9 hL}}\nsteps: [dosing.portions]\n");
  const std::vector<std::vector<std::string>> commands{
      {"run", dosing.string(), "--plugins", VATWRIGHT_FIXTURES "/dosing"},
      {"run", demo_file()},
      {"run", failing.string()},
      {"compute", "sulfite.molecular", "pH=3.40", "free SO2=30 mg/L"},
      {"compute", "sulfite.addition", "volume=10 hL", "pH=3.4", "free SO2=10 mg/L", "total SO2=40 mg/L",
       "target free SO2=30 mg/L", "substance=sulfur dioxide solution", "strength=60 g/L",
       "varieties={Sorrel: 60 %, Blackthorn: 40 %}",
       "absorbance={path: 10 mm, 420 nm: 0.3 ± 0.01 AU, 520 nm: 0.4 AU}"}};
  for (auto command : commands) {
    command.insert(command.end(), {"--format", "json"});
    const auto said = call(command);
    ASSERT_LE(said.status, 1) << said.err;
    const auto verdict = validate(said.out);
    ASSERT_NE(verdict.status, no_validator) << "install the package python3-jsonschema to run this test";
    EXPECT_EQ(verdict.status, 0) << verdict.err;
  }
}

// The schema is not one that takes everything.
TEST(SchemaTest, AnAdditionWithoutCautionsIsNot) {
  Json sheet = demo();
  sheet["steps"][1]["additions"][0].erase("cautions");
  const auto verdict = validate(sheet.dump());
  ASSERT_NE(verdict.status, no_validator) << "install the package python3-jsonschema to run this test";
  EXPECT_NE(verdict.status, 0);
  sheet = demo();
  sheet["steps"][1]["results"]["added SO2"].erase("unit");
  EXPECT_NE(validate(sheet.dump()).status, 0);
  sheet = demo();
  sheet["steps"][1]["inputs"]["pH"]["uncertainties"] = "0.02";
  EXPECT_NE(validate(sheet.dump()).status, 0);
}

}  // namespace json_test
