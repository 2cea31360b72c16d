// vatwright intake and convert: from a laboratory's table to results that may be used.
#include "tests/folder.hpp"
#include "tests/host/program.hpp"

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include <fstream>
#include <sstream>

namespace vatwright::test {
namespace intake_test {

using Json = nlohmann::json;

bool has(std::string_view text, std::string_view part) { return text.find(part) != std::string_view::npos; }

const std::string morning = (source_dir / "recipes/laboratory-morning").string();

const std::string by_column =
    "mapping: two columns\nsample: S\nresults:\n  pH: {column: [P1, P2], repeatability: 0.03}\n";

auto taken(const std::string& table, const std::string& mapping, const std::string& format = "json") {
  const Folder folder;
  const auto t = folder.write("table.csv", table), m = folder.write("mapping.yaml", mapping);
  return call({"intake", t.string(), "--by", m.string(), "--format", format});
}

Json answer(const Json& sheet, std::size_t sample, const std::string& name) {
  for (const auto& result : sheet["samples"][sample]["results"])
    if (result["name"] == name) return result;
  return {};
}

// 14 samples, one control, one pair that does not agree: judged results, a table of lots, and doses with a second
// command.
TEST(Intake, AMorning) {
  const auto said = call({"intake", morning + "/burette.csv", "--by", morning + "/mapping.yaml", "--format", "json"});
  EXPECT_EQ(said.status, 1) << said.err;
  const Json sheet = Json::parse(said.out);
  ASSERT_EQ(sheet["samples"].size(), 15U);
  for (const auto& control : sheet["controls"]) EXPECT_TRUE(control["right"]) << control.dump();
  std::size_t amiss = 0;
  for (const auto& sample : sheet["samples"])
    for (const auto& result : sample["results"])
      if (!result["may be used"].get<bool>()) {
        ++amiss;
        EXPECT_EQ(sample["sample"], "T9");
        EXPECT_EQ(result["name"], "total SO2");
        EXPECT_FALSE(result.contains("value"));
        EXPECT_TRUE(has(result["amiss"][0].get<std::string>(), "read a third time"));
      }
  EXPECT_EQ(amiss, 1U);

  const Folder folder;
  const std::string lots = (folder.path() / "lots.csv").string();
  EXPECT_EQ(
      call({"intake", morning + "/burette.csv", "--by", morning + "/mapping.yaml", "--format", "csv", "--out", lots})
          .status,
      1);
  const auto doses = call({"run", morning + "/recipe.yaml", "--lots", lots, "--format", "csv"});
  EXPECT_TRUE(has(doses.err, "14 lots")) << doses.err;
  EXPECT_TRUE(has(doses.out, "potassium metabisulfite")) << doses.out;
}

TEST(Intake, TwoColumnsRepeatEachOther) {
  const auto said = taken("S,P1,P2\nA,3.40,3.42\nB,3.40,3.50\nC,3.30,\n", by_column);
  const Json sheet = Json::parse(said.out);
  EXPECT_EQ(said.status, 1);
  EXPECT_NEAR(answer(sheet, 0, "pH")["value"], 3.41, 1e-9);
  EXPECT_FALSE(answer(sheet, 1, "pH").contains("value"));
  EXPECT_NEAR(answer(sheet, 2, "pH")["value"], 3.30, 1e-9);
  EXPECT_EQ(answer(sheet, 2, "pH")["readings"], 1);
}

TEST(Intake, DecimalCommaAndSemicolonsByDeclaration) {
  const std::string table = "S;P1;P2;Who\nA;3,40;3,42;Ost\n";
  EXPECT_EQ(taken(table, by_column).status, 2);
  const auto said = taken(table, by_column + "separator: ';'\ndecimal comma: yes\ncarry: all\n");
  ASSERT_EQ(said.status, 0) << said.err;
  EXPECT_NEAR(answer(Json::parse(said.out), 0, "pH")["value"], 3.41, 1e-9);
  EXPECT_EQ(Json::parse(said.out)["samples"][0]["carried"]["Who"], "Ost");
}

TEST(Intake, AControlThatIsOffHoldsTheResultsBack) {
  const auto said =
      taken("S,P1,P2\nCTRL,3.60,3.60\nA,3.40,3.42\n", by_column + "controls: {CTRL: {pH: 3.40 ± 0.02 pH}}\n");
  EXPECT_EQ(said.status, 1);
  const Json sheet = Json::parse(said.out);
  EXPECT_FALSE(sheet["controls"][0]["right"]);
  EXPECT_FALSE(answer(sheet, 1, "pH")["may be used"]);
  const auto lots =
      taken("S,P1,P2\nCTRL,3.60,3.60\nA,3.40,3.42\n", by_column + "controls: {CTRL: {pH: 3.40 ± 0.02 pH}}\n", "csv");
  EXPECT_FALSE(has(lots.out, "3.41")) << lots.out;
  EXPECT_FALSE(has(lots.out, "CTRL")) << lots.out;
}

TEST(Intake, SlipsAreAnsweredWithTheirPlace) {
  const auto column = taken("S,P1,PP2\nA,3.40,3.42\n", by_column);
  EXPECT_EQ(column.status, 2);
  EXPECT_TRUE(has(column.err, "mapping.yaml:4:")) << column.err;
  EXPECT_TRUE(has(column.err, "no column 'P2'")) << column.err;
  const auto cell = taken("S,P1,P2\nA,3.40,abc\nB,3.3,3.3\n", by_column);
  EXPECT_EQ(cell.status, 1);
  EXPECT_TRUE(has(answer(Json::parse(cell.out), 0, "pH")["amiss"][0].get<std::string>(), "row 2")) << cell.out;
  EXPECT_NEAR(answer(Json::parse(cell.out), 1, "pH")["value"], 3.3, 1e-9);
}

// 14 samples are two sheets of paper.
TEST(Intake, AtMostTwoPagesOfPaper) {
  const std::string chromium = "/usr/bin/chromium", info = "/usr/bin/pdfinfo";
  ASSERT_TRUE(fs::exists(chromium) && fs::exists(info))
      << "install the packages chromium and poppler-utils to run this test";
  const Folder folder;
  const auto page = (folder.path() / "sheet.html").string(), pdf = (folder.path() / "sheet.pdf").string();
  call({"intake", morning + "/burette.csv", "--by", morning + "/mapping.yaml", "--format", "html", "--out", page});
  run_program(chromium, {"--headless", "--no-sandbox", "--disable-gpu", "--user-data-dir=" + folder.path().string(),
                         "--no-pdf-header-footer", "--print-to-pdf=" + pdf, "file://" + page});
  const auto said = run_program(info, {pdf}).out;
  const auto at = said.find("Pages:");
  ASSERT_NE(at, std::string::npos) << said;
  EXPECT_LE(std::stoi(said.substr(at + 6)), 2) << said;
}

// What no lot has goes from the laboratory's table to the doses.
TEST(Intake, ExtraColumnsAreCarriedToTheDoses) {
  const Folder folder;
  const auto table = folder
                         .write("lots.csv",
                                "lot,Rack,pH,free SO2 [mg/L],total SO2 [mg/L],Owner\nA,A3,3.4,12,60,\"Ann, B\"\n"
                                "B,=2+3,3.3,80,60,\n")
                         .string();
  const auto recipe = folder.write("r.yaml", "recipe: test\nsteps:\n  - sulfite.molecular: {}\n").string();
  const auto run = [&](std::vector<std::string> more) {
    more.insert(more.begin(), {"run", recipe, "--lots", table});
    return call(more);
  };
  EXPECT_TRUE(has(run({"--format", "csv"}).err, "add '--carry all'"));
  for (const auto& how :
       {std::vector<std::string>{"--carry", "all"}, std::vector<std::string>{"--carry", "Rack", "--carry", "Owner"}}) {
    auto csv = how, html = how;
    csv.insert(csv.end(), {"--format", "csv"});
    html.insert(html.end(), {"--format", "html"});
    const auto rows = run(csv);
    EXPECT_TRUE(has(rows.out, ",Rack,Owner\r\n")) << rows.out << rows.err;
    EXPECT_TRUE(has(rows.out, ",A3,\"Ann, B\"\r\n")) << rows.out;
    EXPECT_TRUE(has(rows.out, ",'=2+3,\r\n")) << "a row that is refused keeps them, and no formula: " << rows.out;
    EXPECT_TRUE(has(run(html).out, "Rack A3"));
  }
  EXPECT_TRUE(has(run({"--carry", "Rak", "--format", "csv"}).err, "no column 'Rak' to carry along"));
  const auto slip = folder.write("slip.csv", "lot,fre SO2 [mg/L]\nA,12\n").string();
  EXPECT_TRUE(has(call({"run", recipe, "--lots", slip, "--carry", "all", "--format", "csv"}).err, "free SO2"))
      << "a reading with a slip in its head is not carried past";
}

TEST(Intake, APageAndAText) {
  for (const auto* format : {"text", "html"}) {
    const auto said = call({"intake", morning + "/burette.csv", "--by", morning + "/mapping.yaml", "--format", format});
    EXPECT_TRUE(has(said.out, "read a third time"));
    EXPECT_TRUE(has(said.out, "Wear goggles and gloves"));  // of the hydroxide, once
    EXPECT_TRUE(has(said.out, "as local rules say"));
  }
}

TEST(Convert, UnitsBasesAndScalesOfSugar) {
  const auto answer_to = [](const std::string& quantity, const std::string& unit) {
    return call({"convert", quantity, unit}).out;
  };
  EXPECT_TRUE(has(answer_to("5.1 g/L as tartaric acid", "g/L as sulfuric acid"), "3.332"));
  EXPECT_TRUE(has(answer_to("48 hL", "gal"), "1268.03 gal"));
  EXPECT_TRUE(has(answer_to("1.0945 SG", "°Oe"), "94.5 °Oe"));
  const auto sugar = answer_to("22.4 °Brix", "°Oe");
  EXPECT_TRUE(has(sugar, "93.") || has(sugar, "94."))
      << sugar;  // 22.4 % mass of sucrose: 1.0939 to 1.0942 by the tables
  EXPECT_TRUE(has(sugar, "sucrose")) << sugar;
  EXPECT_TRUE(has(call({"convert", "30 mg/L", "mol/L"}).err, "until its substance is said"));
  EXPECT_EQ(call({"convert", "30 mg/L", "mol/L"}).status, 2);
}

}  // namespace intake_test
}  // namespace vatwright::test
