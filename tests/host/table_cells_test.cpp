// What stands in the cells and the head of a table of lots, and what a person is told to write in its place.
#include "tests/host/lots_table.hpp"

namespace table_cells_test {

using namespace vatwright;
using namespace vatwright::test;

// A spreadsheet writes two thousand as 2.000 where thousands are grouped by a point.
TEST(TableCells, AVolumeThatCanBeReadInTwoWaysIsRefused) {
  const auto answer =
      run(std::string(head).append("A,2.400,3.31,12,58,pink\nB,24.125,3.31,12,58,pink\nC,2.000,3.31,12,58,pink\n"
                                   "D,2.40,3.31,12,58,pink\nE,24.1250,3.31,12,58,pink\n"));
  const std::string ways = " can be read in two ways; write ";
  EXPECT_EQ(answer.cell(1, "error"),
            "volume: '2.400 hL'" + ways + "2.4 where the point is a decimal point, 2400 where it marks thousands");
  EXPECT_EQ(answer.cell(1, "to add"), "");
  EXPECT_TRUE(says(answer.cell(2, "error"), "'24.125 hL'" + ways + "24.1250 where"));
  EXPECT_TRUE(says(answer.cell(2, "error"), ", 24125 where it marks thousands"));
  EXPECT_TRUE(says(answer.cell(3, "error"), "'2.000 hL'" + ways + "2 where"));
  // What it asks for is taken.
  EXPECT_EQ(answer.cell(4, "error"), "");
  EXPECT_EQ(answer.cell(5, "error"), "");
}

TEST(TableCells, AUnitInTheHeadIsNotSaidAgain) {
  const auto answer = run(
      std::string(head).append("A,24 hL,3.31,12,58,pink\nB,24.0 gal,3.31,12,58,pink\nC,24 hl,3.31,12 ± 2 mg/L,58,pink\n"
                               "D,12 100,3.31,12,58,pink\n"));
  EXPECT_EQ(answer.cell(1, "error"), "volume: '24 hL' has a unit, and so has the head; write the number alone, in hL");
  EXPECT_EQ(answer.cell(2, "error"),
            "volume: '24.0 gal' has a unit, and so has the head; write the number alone, in hL");
  EXPECT_TRUE(says(answer.cell(3, "error"), "'24 hl' has a unit"));
  EXPECT_TRUE(says(answer.cell(4, "error"), "a second number"));
}

// What a laboratory's own program leaves in a cell in place of a number. What is proposed is taken.
TEST(TableCells, WhatIsNoNumberSaysWhatToWrite) {
  const auto answer =
      run(std::string(head).append("A,24,3.31,<10,58,pink\nB,24,n/a,12,58,pink\nC,24,3.31,5-7,58,pink\n"
                                   "D,24,3.31,5.0 ± 2.9,58,pink\nE,24,3.31,6.00 ± 0.58,58,pink\n"));
  EXPECT_EQ(
      answer.cell(1, "error"),
      "free SO2: '<10' is a bound, not a figure; write half of it, with all that is left open: '5.0 ± 2.9' (common "
      "practice, no source), or leave it out");
  EXPECT_EQ(
      answer.cell(2, "error"),
      "pH: 'n/a' is no number; leave the cell empty where nothing was measured; for what was not found write half "
      "the detection limit ('2.5 ± 1.4' where it is 5; common practice, no source)");
  EXPECT_TRUE(says(answer.cell(3, "error"),
                   "'5-7' is a span, not a figure; write its middle, with what is left open: "
                   "'6.00 ± 0.58'"));
  EXPECT_EQ(answer.cell(4, "error"), "");
  EXPECT_EQ(answer.cell(5, "error"), "");
}

// The basis of a recipe holds for the table that it is run on; one in the head goes before it.
TEST(TableCells, TheAcidBasisReachesTheHead) {
  const std::string steps =
      "lots: {each: {stage: wine, class: still, colour: pink, ethanol: 12 % vol}}\nsteps:\n"
      "  - acid.addition: {target pH: 3.35}\n";
  const auto dose = [&](const std::string& basis, const std::string& unit, const std::string& acidity) {
    const auto answer = run("lot,volume [hL],pH,titratable acidity [" + unit + "]\nA,20,3.55," + acidity + "\n",
                            "recipe: test\n" + basis + steps);
    EXPECT_EQ(answer.said.status, 0) << answer.said.err;
    EXPECT_EQ(answer.cell(1, "error"), "");
    return answer.cell(1, "to add");
  };
  const auto wanted = dose("", "g/L as tartaric acid", "4.8");
  EXPECT_TRUE(says(wanted, "of tartaric acid"));
  EXPECT_EQ(dose("acid basis: tartaric acid\n", "g/L", "4.8"), wanted);
  EXPECT_EQ(dose("acid basis: sulfuric acid\n", "g/L as tartaric acid", "4.8"), wanted);
  EXPECT_NE(dose("acid basis: sulfuric acid\n", "g/L", "4.8"), wanted);
  const auto none = run("lot,volume [hL],pH,titratable acidity [g/L]\nA,20,3.55,4.8\n", "recipe: test\n" + steps);
  EXPECT_EQ(none.said.status, 2);
  EXPECT_TRUE(says(none.said.err,
                   "'titratable acidity [g/L]' does not say which acid it is counted as\n  write such as 'titratable "
                   "acidity [g/L as tartaric acid]', or state 'acid basis: tartaric acid' in the recipe"));
}

}  // namespace table_cells_test
