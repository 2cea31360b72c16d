// A spreadsheet runs what looks like a formula: no cell of ours does, and no number or name is altered for it.
#include "host/files/spreadsheet.hpp"

#include "host/batch/csv.hpp"
#include "host/sheet/csv.hpp"
#include "tests/host/sheets.hpp"

#include <gtest/gtest.h>

namespace spreadsheet_test {

using namespace vatwright;
using namespace vatwright::test;

TEST(Spreadsheet, WordsThatWouldRunAreText) {
  for (const auto& [words, shown] : std::vector<std::pair<std::string, std::string>>{{"=1+1", "'=1+1"},
                                                                                     {"+A1", "'+A1"},
                                                                                     {"-A1", "'-A1"},
                                                                                     {"@SUM(A1)", "'@SUM(A1)"},
                                                                                     {"\t=1", "\t'=1"},
                                                                                     {"\r\n=1", "\r\n'=1"},
                                                                                     {"  =1", "  '=1"},
                                                                                     {"\"=1\"", "\"'=1\""},
                                                                                     {"\uFF1D1", "'\uFF1D1"},
                                                                                     {"T7;=1+1", "T7;'=1+1"},
                                                                                     {"T7; =1; -B2", "T7; '=1; '-B2"},
                                                                                     {"-0.3 mg/L", "'-0.3 mg/L"}})
    EXPECT_EQ(as_text(words), shown);
}

TEST(Spreadsheet, NumbersAndPlainWordsStayAsTheyAre) {
  for (const std::string words : {"", "-", "-0.3", "-12", "-1.5e-05", "3.42", "T7", "T7-B", "a = b",
                                  "free SO2, -5 mg/L", "x@y", ";;", "  ", "184 g; -3; 2"})
    EXPECT_EQ(as_text(words), words == "-" ? "'-" : words);
}

// A cell is still one of RFC 4180: what is read back is what was shown.
TEST(Spreadsheet, ACellIsQuotedWhereItMustBe) {
  EXPECT_EQ(csv_cell("-0.300"), "-0.300");
  EXPECT_EQ(csv_cell("=1,2"), "\"'=1,2\"");
  EXPECT_EQ(csv_cell("=\"a\""), "\"'=\"\"a\"\"\"");
}

// Every cell of a file: none begins with what a spreadsheet runs, unless it is a number.
void expect_inert(const std::string& csv) {
  const Folder folder;
  CsvReader reader(folder.write("out.csv", csv));
  std::size_t cells = 0;
  for (CsvRow row; reader.next(row);)
    for (const auto& cell : row.cells) {
      EXPECT_EQ(as_text(cell), cell);
      ++cells;
    }
  EXPECT_GT(cells, 10U);
}

TEST(Spreadsheet, NoWordOfARecipeRuns) {
  const TestHouse house;
  const std::string evil = "=HYPERLINK(\"x\")";
  StepSheet step = step_adding(house, {"potassium metabisulfite"});
  step.lot = step.calculation = evil;
  step.outcome.additions[0].when = step.outcome.additions[0].strength = evil;
  step.outcome.work = {evil, "T7;" + evil};
  step.outcome.notes = {"\t" + evil};
  step.outcome.checks.push_back(check_of(evil, false, "+" + evil));
  step.outcome.results[0].number = -0.0221;
  const auto csv = write_csv(sheet_of({step}));
  expect_inert(csv);
  EXPECT_NE(csv.find(",-22.100,mg/L"), std::string::npos) << csv;
}

TEST(Spreadsheet, ATableOfLotsMayNotNameALotSo) {
  const Folder folder;
  const auto recipe = folder.write("r.yaml", "recipe: =1+1\nsteps: [sulfite.molecular]\n");
  const auto table = folder.write("lots.csv",
                                  "lot,pH,free SO2 [mg/L]\n=1+1,3.4,30\n+A,3.4,30\n-A,3.4,30\n@A,3.4,30\n"
                                  "\"\tA\",3.4,30\n\"\r=A\",3.4,30\n\" =A\",3.4,30\n\"A;=1\",3.4,30\n"
                                  "-3,3.4,30\nA-1,3.4,30\n");
  const auto said = call({"run", recipe.string(), "--lots", table.string(), "--format", "csv"});
  EXPECT_EQ(said.status, 1);
  EXPECT_NE(said.err.find("10 lots: 0 with a check that fails, 8 that could not be computed"), std::string::npos)
      << said.err;
  EXPECT_NE(said.out.find("a spreadsheet would run the lot's name '=1+1' as a formula; begin the name with a letter"),
            std::string::npos)
      << said.out;
  EXPECT_NE(said.out.find("a lot's name has a tab, a line's end or another control character in it"),
            std::string::npos);
  EXPECT_NE(said.out.find("\r\n-3,"), std::string::npos);
  EXPECT_NE(said.out.find("\r\nA-1,"), std::string::npos);
  expect_inert(said.out);
}

TEST(Spreadsheet, NorMayARecipeOrAStepThatMakesALot) {
  EXPECT_EQ(complaint("recipe: test\nlots:\n  =T7: {pH: 3.4, free SO2: 30 mg/L}\nsteps: [sulfite.molecular]\n"),
            "recipe.yaml:3:3: a spreadsheet would run the lot's name '=T7' as a formula\n"
            "     3 |   =T7: {pH: 3.4, free SO2: 30 mg/L}\n"
            "       |   ^\n"
            "  begin the name with a letter or a digit, and write no ';' before a sign");
  const auto made = complaint(
      "recipe: test\nlots: {A: {volume: 10 hL, pH: 3.4}, B: {volume: 10 hL, pH: 3.5}}\nsteps:\n"
      "  - blend.mix: {lots: {A: 50 %, B: 50 %}, into: \"@AB\"}\n");
  EXPECT_NE(made.find("recipe.yaml:4:49: "), std::string::npos) << made;
  EXPECT_NE(made.find("would run the lot's name '@AB' as a formula"), std::string::npos) << made;
}

}  // namespace spreadsheet_test
