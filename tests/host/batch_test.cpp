// One recipe on a table of lots: every row as it is alone, errors kept by row, tables that are amiss.
#include "host/batch/batch.hpp"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <regex>

#include "tests/host/lots_table.hpp"
#include "units/parse.hpp"

namespace batch_test {

using namespace vatwright;
using namespace vatwright::test;

TEST(Batch, ARowIsAsItIsAlone) {
  const auto answer = run(std::string(head) + "A,24,3.31,12,58,pink\r\n\"B, the big one\",36.5,3.45,18,71,red\r\n");
  EXPECT_EQ(answer.said.status, 0) << answer.said.err;
  ASSERT_EQ(answer.rows.size(), 3U);
  EXPECT_EQ(answer.cell(2, "lot"), "B, the big one");
  TestHouse house;
  const auto alone = house.run(
      "recipe: test\nrules: EU\nlots: {A: {volume: 24 hL, pH: 3.31, free SO2: 12 mg/L, total SO2: 58 mg/L, "
      "colour: pink, stage: wine, class: still}}\nsteps:\n  - sulfite.addition: {target free SO2: 28 mg/L}\n");
  for (const auto& result : alone.steps[0].outcome.results) {
    const auto unit = std::string(result.info->unit);
    EXPECT_EQ(answer.cell(1, fmt::format("{} [{}]", result.info->name, unit)),
              fmt::format("{:.{}f}", parse_unit(unit).number(result.number), result.info->decimals + 2));
  }
  EXPECT_TRUE(says(answer.cell(1, "to add"), "g of potassium metabisulfite"));
  EXPECT_TRUE(says(answer.cell(1, "cautions"), "EUH031"));
  EXPECT_EQ(answer.cell(1, "checks"), "hold");
}

TEST(Batch, OrderIsKeptOverManyBlocks) {
  std::string table = head;
  for (int i = 0; i < 3000; ++i) table += fmt::format("L{},10,3.4,{},90,white\n", i, i % 28);
  const auto answer = run(table);
  EXPECT_EQ(answer.said.status, 0) << answer.said.err;
  ASSERT_EQ(answer.rows.size(), 3001U);
  for (std::size_t i = 0; i < 3000; ++i) ASSERT_EQ(answer.rows[i + 1].cells[0], fmt::format("L{}", i));
  EXPECT_TRUE(says(answer.said.err, "3000 lots: 0 with a check that fails, 0 that could not be computed"));
}

TEST(Batch, ErrorsStayWithTheirRow) {
  const auto answer = run(std::string(head) +
                          "A,24,3.31,12,58,pink\nB,24,\"3,31\",12,58,pink\nC,24,3.31,80,58,pink\nD,24,3.31,12,58,rosa\n"
                          "E,24,3.31,12\nF,24,3.31,,58,pink\nG,-3,3.31,12,58,pink\n,24,3.31,12,58,pink\n"
                          "H,24,3.31,nan,58,pink\nI,24,3.31,12,58,pink\n");
  EXPECT_EQ(answer.said.status, 1);
  ASSERT_EQ(answer.rows.size(), 11U);
  for (const std::size_t good : {1U, 10U}) {
    EXPECT_EQ(answer.cell(good, "error"), "");
    EXPECT_NE(answer.cell(good, "to add"), "");
  }
  const char* errors[] = {
      "decimal point",     "is above total SO2 of", "'rosa' is not known here", "4 cells, expected 6",
      "misses 'free SO2'", "outside what can be",   "the lot has no name",      "free SO2"};
  for (std::size_t i = 0; i < std::size(errors); ++i) {
    EXPECT_TRUE(says(answer.cell(i + 2, "error"), errors[i])) << i;
    EXPECT_EQ(answer.cell(i + 2, "to add"), "") << i;
  }
  EXPECT_TRUE(says(answer.said.err, "10 lots: 0 with a check that fails, 8 that could not be computed"));
}

// A row that fails is found again: by the name of its lot, and the cell that is amiss.
TEST(Batch, ARowThatFailsKeepsItsName) {
  const auto answer = run(std::string(head) + "A,24,3.31\nB,24,3.31,12,58,pink,extra\n,24,3.31,12,58,pink\n");
  EXPECT_EQ(answer.cell(1, "lot"), "A");
  EXPECT_TRUE(says(answer.cell(1, "error"), "row 2: the cell for 'free SO2 [mg/L]' is missing: 3 cells, expected 6"));
  EXPECT_EQ(answer.cell(2, "lot"), "B");
  EXPECT_TRUE(says(answer.cell(2, "error"), "row 3: a cell 'extra' after the last column: 7 cells, expected 6"));
  EXPECT_EQ(answer.cell(3, "lot"), "row 4");
}

// Dosing the same wine twice is the accident that a table makes easy.
TEST(Batch, ALotTwiceIsDosedOnce) {
  std::string table = head;
  for (int i = 0; i < 600; ++i) table += fmt::format("L{},10,3.4,12,90,white\n", i);
  const auto answer = run(table + " L7 ,10,3.4,12,90,white\nL599,10,3.4,12,90,white\n");
  EXPECT_EQ(answer.said.status, 1);
  ASSERT_EQ(answer.rows.size(), 603U);
  EXPECT_EQ(answer.cell(8, "error"), "");
  for (const auto& [row, says_so] : {std::pair{std::size_t{601}, "row 602: lot 'L7' is in row 9 already"},
                                     {602, "row 603: lot 'L599' is in row 601 already"}}) {
    EXPECT_TRUE(says(answer.cell(row, "error"), says_so));
    EXPECT_EQ(answer.cell(row, "to add"), "");
  }
  EXPECT_TRUE(says(answer.said.err, "602 lots: 0 with a check that fails, 2 that could not be computed"));
}

// As a spreadsheet leaves them below the last row, or between two.
TEST(Batch, LinesOfCommasAreEmpty) {
  const auto answer = run(",,,,,\n" + std::string(head) + "A,24,3.31,12,58,pink\n,,, ,,\nB,24,3.31,12,58\n,,,,,\n");
  ASSERT_EQ(answer.rows.size(), 3U);
  EXPECT_EQ(answer.cell(1, "error"), "");
  EXPECT_TRUE(says(answer.cell(2, "error"), "row 5: the cell for 'colour' is missing"));
}

// A table in the code page of its machine: said once, and no byte of it is passed on.
TEST(Batch, ATableThatIsNotUtf8IsRefused) {
  for (const int rows : {1, 700}) {
    std::string table = head;
    for (int i = 0; i < rows; ++i) table += fmt::format("L{},10,3.4,12,90,white\n", i);
    const auto answer = run(table + "Gr\xFCn,10,3.4,12,90,white\nBlau\xE9,10,3.4,12,90,white\n");
    EXPECT_EQ(answer.said.status, 2);
    EXPECT_TRUE(answer.rows.empty());
    EXPECT_TRUE(says(answer.said.err, fmt::format("row {}: cell 1 is not UTF-8\n  save the file as UTF-8", rows + 2)));
    EXPECT_EQ(answer.said.err.find('\xFC'), std::string::npos);
  }
}

// What a row asks of its lot may be more than a wine can be: that row alone has no answer.
TEST(Batch, ALotThatCannotBeFailsItsRow) {
  const auto answer = run(std::string(head) + "A,48,4.7,14,62,pink\nB,48,3.3,14,62,pink\n",
                          "recipe: test\nsteps:\n  - sulfite.addition: {target molecular SO2: 0.8 mg/L}\n");
  EXPECT_EQ(answer.said.status, 1) << answer.said.err;
  EXPECT_TRUE(says(answer.cell(1, "error"), "free SO2 of lot 'A' would come to "));
  EXPECT_TRUE(says(answer.cell(1, "error"), "; ask for less, and look at the readings"));
  EXPECT_EQ(answer.cell(1, "error").find('\n'), std::string::npos);
  EXPECT_EQ(answer.cell(1, "to add"), "");
  EXPECT_EQ(answer.cell(2, "error"), "");
}

TEST(Batch, ACheckThatFailsIsCounted) {
  const auto answer = run(std::string(head) + "A,24,3.31,12,198,pink\n");
  EXPECT_EQ(answer.said.status, 1);
  EXPECT_TRUE(says(answer.cell(1, "checks"), "FAIL: total SO2 limit"));
  EXPECT_EQ(answer.cell(1, "to add"), "refused by a check");
}

TEST(Batch, UncertaintyHasColumnsOfItsOwn) {
  const auto answer = run(std::string(head) + "A,24,3.31,12 ± 2,58,pink\n");
  // That of the reading, joined by how far the free share of an addition is off.
  EXPECT_GT(std::stod(answer.cell(1, "free SO2 ± [mg/L]")), 2);
}

// The head is written before the last row is read.
TEST(Batch, UncertaintyIsKeptWhereverItFirstStands) {
  for (const char* sign : {"±", "+-", "+/-"})
    for (const int before : {255, 256, 257, 3000}) {
      std::string table = head;
      for (int i = 0; i < before; ++i) table += fmt::format("L{},24,3.31,12,58,pink\n", i);
      const auto answer = run(table + "last,24,3.31,12 " + sign + " 2,58,pink\n");
      EXPECT_EQ(answer.cell(static_cast<std::size_t>(before) + 1, "free SO2 ± [mg/L]").size(), 5U) << sign << before;
      EXPECT_EQ(answer.cell(1, "free SO2 ± [mg/L]"), "");
    }
}

// What the recipe itself says of a step is a reading of every row.
TEST(Batch, UncertaintyOfTheStepCountsToo) {
  const auto answer = run(std::string(head) + "A,24,3.31,12,58,pink\n",
                          "recipe: test\nsteps:\n  - sulfite.addition: {target free SO2: 28 ± 1 mg/L}\n");
  EXPECT_NE(answer.cell(1, "added SO2 ± [mg/L]"), "");
}

TEST(Batch, MarksOfOtherProgramsAreRead) {
  const auto answer = run("\xEF\xBB\xBFlot,pH,free SO2 [g/hL]\r\n\"say \"\"A\"\"\",3.4,3\r\n",
                          "recipe: test\nsteps: [sulfite.molecular]\n");
  EXPECT_EQ(answer.said.status, 0) << answer.said.err;
  EXPECT_EQ(answer.cell(1, "lot"), "say \"A\"");
  EXPECT_EQ(answer.cell(1, "molecular SO2 [mg/L]").substr(0, 4), "0.75");
}

TEST(Batch, TablesThatAreAmissAreRefused) {
  const auto refusal = [](const std::string& table, const std::string& text = recipe) {
    const auto answer = run(table, text);
    EXPECT_EQ(answer.said.status, 2);
    EXPECT_TRUE(answer.rows.empty());
    return answer.said.err;
  };
  EXPECT_TRUE(says(refusal(""), "the table is empty"));
  EXPECT_TRUE(says(refusal(head), "a head and no lots\n  write a row for each lot"));
  EXPECT_TRUE(says(refusal("pH\n3.4\n"), "no column 'lot'"));
  EXPECT_TRUE(says(refusal("lot,free S02 [mg/L]\n"), "the nearest known one is 'free SO2'"));
  EXPECT_TRUE(says(refusal("lot,zzzzzzzzz\n"), "a table has lot, volume, "));
  EXPECT_TRUE(says(refusal("lot,free SO2\n"), "no unit in 'free SO2'"));
  EXPECT_TRUE(says(refusal("lot,free SO2 [hL]\n"), "is no unit of free SO2"));
  EXPECT_TRUE(says(refusal("lot,free SO2 [mg/L\n"), "no ']'"));
  EXPECT_TRUE(says(refusal("lot,Free SO2 (mg/L)\n"), "a unit stands in square brackets: 'free SO2 [mg/L]'"));
  EXPECT_TRUE(says(refusal("lot,Alcohol [% vol]\n"), "the nearest known one is 'ethanol'"));
  EXPECT_TRUE(says(refusal("lot;pH;free SO2 [mg/L]\r\nA;3,4;12\r\n"), "separated by ';', expected ','"));
  EXPECT_TRUE(says(refusal("lot\tpH\nA\t3.4\n"), "separated by a tab, expected ','"));
  EXPECT_TRUE(says(refusal("lot,pH,pH\n"), "is there twice"));
  EXPECT_TRUE(says(refusal("lot,absorbance [AU]\n"), "a map"));
  EXPECT_TRUE(says(refusal("lot,colour [mg/L]\n"), "has no unit"));
  EXPECT_TRUE(says(refusal("lot,pH\n\"A,3.4\n"), "this is not CSV"));
  EXPECT_TRUE(
      says(refusal(std::string(head) + "\"" + std::string(1 << 20, 'a')), "look for a quote that is not closed"));
  // Many cells, none of them too long: a row may not be larger than a cell may.
  std::string wide(head);
  for (int i = 0; i < 900; ++i) wide.append(1000, 'a').append(1, ',');
  EXPECT_TRUE(says(refusal(wide + "\n"), "a row of more than 1000 cells or 65536 bytes"));
  EXPECT_TRUE(
      says(refusal(head, "recipe: test\nlots: {A: {pH: 3.4}, B: {pH: 3.5}}\nsteps: [{sulfite.molecular: {lot: A}}]\n"),
           "a recipe has one lot"));
}

// --- what must be known of the work

constexpr char chain[] =
    "recipe: Acid & sulfite\nrules: EU\nlots: {each: {stage: wine, class: still, colour: pink, ethanol: 12.5 % vol}}\n"
    "steps:\n  - acid.addition: {target pH: 3.35}\n  - sulfite.addition: {target free SO2: 25 mg/L}\n";
constexpr char chain_lots[] =
    "lot,volume [hL],pH,titratable acidity [g/L as tartaric acid],free SO2 [mg/L],total SO2 [mg/L]\n"
    "A,20,3.55,4.8,10,50\nB,20,3.35,5.2,40,90\nC,30,3.5,4.9,12,55\nD,30,3.5,4.9,30,195\n";

std::string page_of(const std::string& table, const std::string& text) {
  const Folder folder;
  return call({"run", folder.write("r.yaml", text).string(), "--lots", folder.write("lots.csv", table).string(),
               "--format", "html"})
      .out;
}

std::size_t times(const std::string& text, const std::string& part) {
  std::size_t n = 0;
  for (auto at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) ++n;
  return n;
}

TEST(Batch, TheCsvSaysAllOfASubstance) {
  const auto answer = run(chain_lots, chain);
  ASSERT_EQ(answer.rows.size(), 5U);
  EXPECT_EQ(answer.rows[0].cells[1], "to add");
  const Catalogue catalogue(build_dir / "share/vatwright/substances.yaml");
  for (const auto* id : {"tartaric acid", "potassium metabisulfite"}) {
    const Substance& substance = *catalogue.find(id);
    for (const auto& caution : substance.cautions)  // of the limits at work it has those of its rules
      EXPECT_TRUE(says(answer.cell(1, "cautions"), caution.substr(0, caution.find(" of sulfur dioxide over"))))
          << caution;
    for (const auto& hazard : substance.hazards) EXPECT_TRUE(says(answer.cell(1, "cautions"), hazard.code));
    for (const auto& line : substance.handling) EXPECT_TRUE(says(answer.cell(1, "handling"), line));
  }
  EXPECT_TRUE(says(answer.cell(1, "keep apart"), "tartaric acid and potassium metabisulfite: acid drives toxic"));
  EXPECT_TRUE(says(answer.cell(1, "work"), "measure pH"));
  EXPECT_EQ(answer.cell(2, "to add"), "nothing to add");
  for (const auto* empty : {"cautions", "handling", "keep apart", "work"})
    EXPECT_EQ(answer.cell(2, empty), "") << empty;
  for (std::size_t row = 1; row < 5; ++row)
    EXPECT_TRUE(says(answer.cell(row, "recipe"), "Acid & sulfite (SHA-256 ")) << row;
}

// What must not meet, before any dose; the rest once each under the table, however many rows have it.
TEST(Batch, ThePageSaysAllOfASubstanceOnce) {
  const auto page = page_of(chain_lots, chain);
  const auto table_ends = page.find("</table>");
  ASSERT_NE(table_ends, std::string::npos);
  EXPECT_EQ(times(page, "<strong>Keep apart: </strong>tartaric acid and potassium metabisulfite"), 1U);
  EXPECT_LT(page.find("Keep apart"), page.find("<table"));
  const Catalogue catalogue(build_dir / "share/vatwright/substances.yaml");
  for (const auto* id : {"tartaric acid", "potassium metabisulfite"}) {
    EXPECT_EQ(times(page, fmt::format("<h3>{}</h3>", id)), 1U);
    const auto from = page.find(fmt::format("<h3>{}</h3>", id));
    EXPECT_GT(from, table_ends);
    for (const auto& line : catalogue.find(id)->handling) EXPECT_NE(page.find(line, from), std::string::npos) << line;
    for (const auto& hazard : catalogue.find(id)->hazards)
      EXPECT_NE(page.find("<b>" + hazard.code + "</b> " + hazard.text, from), std::string::npos) << hazard.code;
  }
  EXPECT_EQ(times(page.substr(table_ends), "Wear goggles and gloves; raise no dust."), 1U);
}

TEST(Batch, ThePageTellsWhatToDoRightAfterTheLot) {
  const auto page = page_of(chain_lots, chain);
  EXPECT_TRUE(says(page, "<th scope=\"col\">Lot</th>\n<th scope=\"col\">To add</th>"));
  const auto row = [&](const std::string& lot) {
    const auto from = page.find("<th scope=\"row\">" + lot + "</th>");
    return page.substr(from, page.find("</tr>", from) - from);
  };
  EXPECT_EQ(times(row("A"), "<input type=\"checkbox\" />"), 3U);  // acid, a measurement, sulfite
  EXPECT_TRUE(says(row("B"), "</th>\n<td class=\"wide\" data-head=\"to add\"><p>nothing to add</p>"));
}

// A lot that needs nothing is no error among lots of which some do.
TEST(Batch, ALotAtItsTargetSaysThatThereIsNothingToAdd) {
  const std::string acids =
      "lot,volume [hL],pH,titratable acidity [g/L as tartaric acid]\n"
      "A,20,3.55,4.8\nB,20,3.35,5.2\nC,30,3.2,6.1\n";
  const std::string sugars = "lot,volume [hL],sugar [g/L],ethanol [% vol]\nA,20,170,0\nB,20,193.545,0\nC,20,210,0\n";
  const std::string spirits = "lot,volume [hL],ethanol [% vol]\nA,20,12\nB,20,16\nC,20,17.5\n";
  struct Row {
    const char* step;
    const std::string& table;
    std::size_t dosed;
  };
  const Row rows[] = {{"acid.addition: {target pH: 3.35}", acids, 1},
                      {"acid.addition: {target titratable acidity: 5.2 g/L as tartaric acid}", acids, 1},
                      {"acid.reduction: {target pH: 3.35}", acids, 3},
                      {"acid.reduction: {target pH: 3.35, substance: calcium carbonate}", acids, 3},
                      {"sugar.enrichment: {target potential alcohol: 11.5 % vol}", sugars, 1},
                      {"sugar.fortification: {spirit: 96 % vol, target ethanol: 16 % vol}", spirits, 1}};
  for (const auto& row : rows) {
    SCOPED_TRACE(row.step);
    const auto answer = run(row.table, std::string("recipe: test\nsteps:\n  - ") + row.step + "\n");
    EXPECT_EQ(answer.said.status, 0) << answer.said.err;
    EXPECT_TRUE(says(answer.said.err, "3 lots: 0 with a check that fails, 0 that could not be computed"));
    for (std::size_t i = 1; i <= 3; ++i) {
      EXPECT_EQ(answer.cell(i, "error"), "");
      EXPECT_EQ(answer.cell(i, "checks"), "hold");
      EXPECT_EQ(answer.cell(i, "to add") == "nothing to add", i != row.dosed) << i;
    }
  }
}

// Two additions to one lot are told apart by their step; a recipe of one step has nothing to tell.
TEST(Batch, WhatIsToBeDoneNamesItsStep) {
  const auto answer = run(chain_lots, chain);
  EXPECT_TRUE(std::regex_match(answer.cell(1, "to add"), std::regex("step 1: .* of tartaric acid; step 2: .* of "
                                                                    "potassium metabisulfite")))
      << answer.cell(1, "to add");
  EXPECT_TRUE(answer.cell(1, "work").starts_with("step 2: first mix what step 1 adds")) << answer.cell(1, "work");
  EXPECT_TRUE(std::regex_match(answer.cell(4, "to add"), std::regex("step 1: .* of tartaric acid")));
  const auto page = page_of(chain_lots, chain);
  EXPECT_TRUE(says(page, " step 2: first mix, wait and measure pH"));
  EXPECT_TRUE(std::regex_search(page, std::regex("/>\\s* step 2: <strong>[^<]* of potassium metabisulfite</strong>")));
  EXPECT_EQ(run(std::string(head) + "A,24,3.31,12,58,pink\n").cell(1, "to add").find("step"), std::string::npos);
}

// A lot that a step makes is another than the one of the row.
TEST(Batch, AnAdditionToALotThatWasMadeNamesIt) {
  const auto answer = run(
      "lot,volume [hL],pH,free SO2 [mg/L],total SO2 [mg/L]\nA,46,3.5,4,18\n",
      "recipe: test\nlots: {each: {stage: must, class: still, colour: red, sugar: 231 g/L, temperature: 14 "
      "°C}}\nsteps:\n"
      "  - pink.bleed: {bleed share: 12 %, of: whole tank, tank volume: 60 hL, skins and seeds: 1450 kg, into: juice}\n"
      "  - sulfite.addition: {lot: juice, target free SO2: 20 mg/L}\n");
  EXPECT_TRUE(
      std::regex_match(answer.cell(1, "to add"), std::regex("step 2: .* of potassium metabisulfite into lot juice")))
      << answer.cell(1, "to add") << answer.cell(1, "error") << answer.said.err;
}

// --- the verdict

TEST(Batch, TheVerdictLeadsThePage) {
  const auto page = page_of(std::string(head) +
                                "A,24,3.31,12,58,pink\nB <1>,24,3.31,12,198,pink\nC,24,0,12,58,pink\n"
                                "D,24,3.31,12,199,pink\n,24,3.31,12,58,pink\n",
                            recipe);
  const auto table = page.find("<table");
  const auto top = page.substr(0, table);
  EXPECT_TRUE(says(top,
                   "5 lots: <strong>1 passes every check; 2 FAIL a check; 2 are NOT COMPUTED</strong>: read them "
                   "before any work"));
  EXPECT_TRUE(says(top,
                   "<strong>A check fails:</strong> <a href=\"#row-3\">B &lt;1&gt;</a>, "
                   "<a href=\"#row-5\">D</a>"));
  EXPECT_TRUE(says(top, "<strong>Not computed:</strong> <a href=\"#row-4\">C</a>, <a href=\"#row-6\">row 6</a>"));
  for (const auto& [anchor, lot] : {std::pair{"row-3", "B &lt;1&gt;"}, {"row-5", "D"}})
    EXPECT_TRUE(says(page.substr(table), fmt::format("<tr id=\"{}\"><th scope=\"row\">{}<small class=\"fault\">a check "
                                                     "FAILS</small></th>",
                                                     anchor, lot)));
  EXPECT_EQ(times(page, "a check FAILS"), 2U);
}

TEST(Batch, AVerdictWithoutTrouble) {
  const auto good = page_of(std::string(head) + "A,24,3.31,12,58,pink\n", recipe);
  EXPECT_TRUE(says(good, "<div class=\"verdict\"><p>1 lot: <strong>1 passes every check</strong></p>"));
  EXPECT_EQ(times(good, "A check fails:"), 0U);
  EXPECT_EQ(times(good, "Not computed:"), 0U);
  // What was not checked does not pass.
  const auto unchecked =
      page_of("lot,pH,free SO2 [mg/L]\nA,3.4,30\nB,3.4,30\n", "recipe: test\nsteps: [sulfite.molecular]\n");
  EXPECT_TRUE(says(unchecked, "2 lots: <strong>2 have nothing to check</strong>"));
}

// The rows wait for the verdict, and come in their order all the same.
TEST(Batch, ALongPageIsWhole) {
  std::string table = head;
  for (int i = 0; i < 2000; ++i) table += fmt::format("L{},10,3.4,{},{},white\n", i, i % 28, i == 1777 ? 199 : 90);
  const auto page = page_of(table, recipe);
  EXPECT_TRUE(says(page.substr(0, page.find("<table")), "<a href=\"#row-1779\">L1777</a>"));
  std::size_t at = 0;
  for (int i = 0; i < 2000; ++i) {
    at = page.find(fmt::format("<tr id=\"row-{}\"><th scope=\"row\">L{}<", i + 2, i), at);
    ASSERT_NE(at, std::string::npos) << i;
  }
  EXPECT_LT(at, page.find("Cautions and handling"));
  EXPECT_TRUE(page.ends_with("</html>\n"));
}

// Where no row has both, nothing clashes; a recipe that doses nothing has nothing to be told of.
TEST(Batch, NoClashNoBox) {
  EXPECT_EQ(page_of(std::string(head) + "A,24,3.31,12,58,pink\n", recipe).find("Keep apart"), std::string::npos);
  const auto page = page_of("lot,pH,free SO2 [mg/L]\nA,3.4,30\n", "recipe: test\nsteps: [sulfite.molecular]\n");
  EXPECT_EQ(page.find("nothing to add"), std::string::npos);
  EXPECT_EQ(page.find("Cautions"), std::string::npos);
}

TEST(Batch, EveryPrintedPageNamesTheRecipe) {
  const Folder folder;
  const auto sum = run_program("sha256sum", {folder.write("r.yaml", chain).string()}).out.substr(0, 12);
  const auto page = page_of(chain_lots, chain);
  EXPECT_TRUE(says(page, "@bottom-left{content:\"worksheet " + sum + ": Acid \\26  sulfite\"}"));
  EXPECT_TRUE(says(page, "r.yaml (SHA-256 " + sum + "...)"));
}

TEST(Csv, OneSheetIsAFigureALine) {
  const auto said = call({"run", (source_dir / "recipes/before-bottling.yaml").string(), "--format", "csv"});
  EXPECT_EQ(said.status, 0);
  EXPECT_TRUE(says(said.out, "2,sulfite.addition,T7,addition,potassium metabisulfite,184,g,"));
  EXPECT_TRUE(says(said.out, "EUH031"));
}

// Two digits more than the sheet shows, of a figure and of its ±: no twelve digits beside a ± of 2.
TEST(Csv, DigitsThatMeanSomething) {
  const auto said = call({"compute", "sulfite.addition", "volume=48 hL", "pH=3.42", "free SO2=14 ± 2 mg/L",
                          "total SO2=62 mg/L", "target free SO2=28 mg/L", "--format", "csv"});
  EXPECT_EQ(said.status, 0) << said.err;
  const auto at = said.out.find(",free SO2,");
  ASSERT_NE(at, std::string::npos) << said.out;
  EXPECT_TRUE(
      std::regex_search(said.out.substr(at, 60), std::regex("^,free SO2,2[78]\\.[0-9]{3},mg/L,[2-9]\\.[0-9]{3},")))
      << said.out.substr(at, 60);
}

}  // namespace batch_test
