// Lots from the book in recipes, signatures, registers, stock, and what the cellar learns.
#include <gtest/gtest.h>

#include "tests/host/book.hpp"

#include <sstream>

namespace book_more_test {

using namespace vatwright;
using namespace vatwright::test;
using Json = nlohmann::json;

bool says(const std::string& text, const std::string& part) {
  if (text.find(part) != std::string::npos) return true;
  ADD_FAILURE() << "no '" << part << "' in: " << text;
  return false;
}

const std::string acid = "  - acid.addition: {target pH: 3.40}\n";
const std::string sulfite = "  - sulfite.addition: {target molecular SO2: 0.6 mg/L}\n";

TEST(BookMore, ALotFromTheBookIsNeverTypedAgain) {
  const CellarBook book;
  ASSERT_LT(book.keep(pink_recipe(acid), {"--by", "Ann", "--at", "2026-10-03 09:00"}).status, 2);
  ASSERT_EQ(book({"done", "1", "--at", "2026-10-03 10:00"}).status, 0);
  const auto run = [&](const std::string& lots, const std::vector<std::string>& more = {}) {
    std::vector<std::string> words{"run", book.folder.write("today.yaml", pink_recipe(acid + sulfite, lots)).string(),
                                   "--book", book.file.string()};
    words.insert(words.end(), more.begin(), more.end());
    return call(words);
  };
  const auto sheet = Json::parse(run("{T5: from book}", {"--format", "json"}).out);
  EXPECT_EQ(sheet["lots"]["T5"]["before"]["acid added"]["value"], book.fact("T5", "acid added")["value"]);
  EXPECT_EQ(sheet["lots"]["T5"]["before"]["treated with"]["value"]["PVPP"], 200);
  const auto text = run("{T5: from book}").out;
  says(text, "lot T5 is as the book had it on");
  says(text, "first measure pH");
  // A reading of today stands in place of the forecast.
  const auto measured = Json::parse(run("{T5: {from: book, pH: 3.41}}", {"--format", "json"}).out);
  EXPECT_EQ(measured["lots"]["T5"]["before"]["pH"]["value"], 3.41);
  EXPECT_EQ(run("{T5: {from: book, acid added: 0 g/L}}").status, 2);
  says(run("{T6: from book}").err, "there is no lot 'T6' in this book");
  EXPECT_EQ(run("{T5: {from: boook}}").status, 2);
  // The sheet carries what the book had: it verifies without the book, and after it has gone on.
  const auto file = (book.folder.path() / "today.json").string();
  ASSERT_LT(run("{T5: {from: book, pH: 3.41}}", {"--format", "json", "--out", file, "--keep", "--by", "Ann"}).status,
            2);
  EXPECT_EQ(book.number("T5", "pH"), 3.41);
  ASSERT_EQ(book({"measure", "T5", "pH=3.44"}).status, 0);
  const auto verdict = call({"verify", file});
  EXPECT_LT(verdict.status, 2) << verdict.err;
  EXPECT_EQ(verdict.out.find("DIFFERS"), std::string::npos) << verdict.out;
}

TEST(BookMore, TwoPersonsSign) {
  const CellarBook book;
  ASSERT_LT(book.keep(pink_recipe(acid), {"--by", "Ann Reed"}).status, 2);
  says(book({"sign", "1", "--by", "ann  reed"}).err, "a second person signs it");
  EXPECT_EQ(book({"sign", "1"}).status, 2);
  EXPECT_EQ(book({"sign", "2", "--by", "Bea"}).status, 2);
  const auto said = book({"sign", "1", "--by", "Bea"});
  EXPECT_EQ(said.status, 0) << said.out << said.err;
  says(said.out, "sheet 1 holds");
  says(book({"history", "T5"}).out, "sheet 1 signed: it holds; by Bea");
  ASSERT_EQ(book({"done", "1", "--by", "Cay"}).status, 0);
  const auto rows = book.json({"register"})["rows"];
  ASSERT_EQ(rows.size(), 1U);
  EXPECT_EQ(rows[0]["signed by"], "Bea");
  // Nobody who computed it is named: a second person cannot be told from the first.
  const CellarBook other;
  ASSERT_LT(other.keep(pink_recipe(acid)).status, 2);
  says(other({"sign", "1", "--by", "Bea"}).err, "does not say who computed it");
}

TEST(BookMore, TheRegisterSaysWhatItsRuleSetAsksFor) {
  const CellarBook book;
  ASSERT_LT(book.keep(pink_recipe(acid + sulfite), {"--by", "Ann", "--at", "2026-10-03"}).status, 2);
  ASSERT_EQ(book({"done", "1.1", "--batch", "L-1", "--by", "Cay", "--at", "2026-10-30"}).status, 0);
  ASSERT_EQ(book({"done", "1.2", "--by", "Cay", "--at", "2026-11-02"}).status, 0);
  const auto eu = book({"register", "--rules", "EU", "--format", "csv"}).out;
  says(eu, "acidification and deacidification,acid.addition,tartaric acid");
  says(eu, "T5: 1000 L to 1000 L");
  says(eu, "potassium metabisulfite");
  const auto us = book({"register", "--rules", "US", "--format", "csv"}).out;
  says(us, "27 CFR 24.318");
  EXPECT_EQ(us.find("metabisulfite"), std::string::npos);
  EXPECT_EQ(book.json({"register", "--from", "2026-11-01"})["rows"].size(), 1U);
  const auto page = book({"register", "--format", "html"}).out;
  says(page, ">2026-10<");
  says(page, ">2026-11<");
  says(book({"register", "--rules", "Mars"}).err, "no register");
  says(book({"stock"}).out, "L-1");
}

TEST(BookMore, ACellarLearnsHowGoodItsForecastsAre) {
  const CellarBook book;
  double sum = 0;
  for (int i = 0; i < 3; ++i) {
    const std::string lot = "L" + std::to_string(i), id = std::to_string(3 * i + 1);
    ASSERT_LT(book.keep(pink_recipe(acid, "{" + lot + ": " + pink_lot + "}")).status, 2);
    ASSERT_EQ(book({"done", id}).status, 0);
    const double forecast = book.number(lot, "pH"), measured = 3.42 + 0.01 * i;
    ASSERT_EQ(book({"measure", lot, "pH=" + std::to_string(measured)}).status, 0);
    sum += measured - forecast;
  }
  const auto all = book.json({"learn"})["forecasts"];
  ASSERT_EQ(all.size(), 1U);
  EXPECT_EQ(all[0]["calculation"], "acid.addition");
  EXPECT_EQ(all[0]["count"], 3);
  EXPECT_NEAR(all[0]["bias"].get<double>(), sum / 3, 1e-9);
  EXPECT_NEAR(all[0]["scatter"].get<double>(), 0.01, 1e-9);
  says(book({"learn"}).out, "acid.addition");
  says(book({"learn", "--format", "html"}).out, "<svg");
  const auto page = book({"lot", "L1", "--format", "html"}).out;
  says(page, "<svg");
  EXPECT_EQ(page.find("<script"), std::string::npos);
  EXPECT_EQ(book({"check"}).status, 0);
}

TEST(BookMore, ALotIsDrawnWithTheLimitsOfItsLastSheet) {
  const CellarBook book;
  ASSERT_LT(book.keep(pink_recipe(sulfite)).status, 2);
  ASSERT_EQ(book({"done", "1"}).status, 0);
  ASSERT_EQ(book({"measure", "T5", "total SO2=80 mg/L"}).status, 0);
  const auto page = book({"lot", "T5", "--format", "html"}).out;
  says(page, "total SO2 over time");
  says(page, "total SO2 limit, EU (");
}

// The file of the recipe is compared with what the sheet says of it.
TEST(BookMore, WhoSignsSeesThatTheRecipeHasChanged) {
  const CellarBook book;
  ASSERT_LT(book.keep(pink_recipe(acid), {"--by", "Ann"}).status, 2);
  const auto file = book.folder.path() / "recipe.yaml";
  EXPECT_EQ(book({"sign", "1", "--by", "Bea", "--recipe", file.string()}).status, 0);
  EXPECT_EQ(book({"sign", "1", "--by", "Bea", "--recipe", "nowhere.yaml"}).status, 2);
  book.folder.write("recipe.yaml", pink_recipe(acid + sulfite));
  for (const auto& more : {std::vector<std::string>{}, {"--recipe", file.string()}}) {
    std::vector<std::string> words{"sign", "1", "--by", "Bea"};
    words.insert(words.end(), more.begin(), more.end());
    const auto said = book(words);
    EXPECT_EQ(said.status, 1);
    says(said.out, "has changed since the sheet was written");
  }
  fs::remove(file);
  const auto without = book({"sign", "1", "--by", "Bea"});
  EXPECT_EQ(without.status, 0);
  says(without.out, "which is not here");
}

// A table of lots: each row that came to a sheet is kept as a sheet of its own, which a second person can sign.
TEST(BookMore, ATableOfLotsIsKeptRowByRow) {
  const CellarBook book;
  const auto recipe = book.folder.write(
      "day.yaml",
      "recipe: day\nrules: EU\nlots:\n  all: {class: still, colour: pink, stage: wine, sugar: 1 g/L}\nsteps:\n" +
          sulfite);
  const auto table =
      book.folder.write("lots.csv",
                        "lot,volume [hL],pH,ethanol [% vol],free SO2 [mg/L],total SO2 [mg/L]\n"
                        "A1,10,3.4,12.5,9,48\nA2,20,3.5 ± 0.02,12.5,9,48\nA3,10,34,12.5,9,48\nA1,10,3.4,12.5,9,48\n");
  const auto run = [&](const fs::path& lots) {
    return call({"run", recipe.string(), "--lots", lots.string(), "--format", "csv", "--keep", "--by", "Ann", "--book",
                 book.file.string()});
  };
  const auto said = run(table);
  EXPECT_EQ(said.status, 1);  // of two rows nothing could be computed
  says(said.err, "kept in the book as the sheets 1 to 2");
  const auto lots = book.json({"lots"})["lots"];
  ASSERT_EQ(lots.size(), 2U);
  EXPECT_EQ(lots["A2"]["open"][0], "2.1.1");
  EXPECT_EQ(lots["A2"]["facts"]["volume"]["value"], 2000);
  EXPECT_EQ(lots["A2"]["facts"]["pH"]["uncertainty"], 0.02);
  const auto sign = book({"sign", "2", "--by", "Bea"});
  EXPECT_EQ(sign.status, 0) << sign.out << sign.err;
  // What the table says is to be added is what is to be done.
  const auto text = book({"lot", "A1"}).out;
  says(text, "of potassium metabisulfite into lot A1");
  // Rows whose accounts are other than the book's are told, and the others kept.
  ASSERT_EQ(book({"measure", "B1", "volume=10 hL", "acid added=1 g/L as tartaric acid"}).status, 0);
  const auto second = run(book.folder.write("more.csv",
                                            "lot,volume [hL],pH,ethanol [% vol],free SO2 [mg/L],total SO2 [mg/L]\n"
                                            "B1,10,3.4,12.5,9,48\nB2,20,3.5,12.5,9,48\n"));
  EXPECT_EQ(second.status, 1);
  says(second.err, "row 2: the sheet reckons lot B1 with acid added none");
  EXPECT_EQ(book.json({"lots"})["lots"].size(), 4U);
  // A column that is carried along is no hindrance.
  const auto carried = call({"run", recipe.string(), "--lots",
                             book.folder
                                 .write("bays.csv",
                                        "lot,volume [hL],pH,ethanol [% vol],free SO2 [mg/L],total "
                                        "SO2 [mg/L],bay\nC1,10,3.4,12.5,9,48,left\n")
                                 .string(),
                             "--format", "csv", "--carry", "bay", "--keep", "--book", book.file.string()});
  EXPECT_EQ(carried.status, 0) << carried.err;
  EXPECT_EQ(book.json({"lots"})["lots"].size(), 5U);
  EXPECT_EQ(book({"check"}).status, 0);
}

// The ± of a forecast is how far such forecasts were off here, with bias and scatter, from five cases on.
// A row of a table takes its lot from the book as a recipe of that lot alone does, with the row's readings beside it.
TEST(BookMore, ATableTakesItsLotsFromTheBook) {
  const CellarBook book;
  ASSERT_LT(book.keep(pink_recipe(acid), {"--at", "2026-10-03 09:00"}).status, 2);
  ASSERT_EQ(book({"done", "1", "--at", "2026-10-03 10:00"}).status, 0);
  ASSERT_EQ(book({"measure", "T6", "volume=20 hL", "pH=3.3", "free SO2=8 mg/L", "total SO2=30 mg/L", "--at",
                  "2026-10-03 11:00"})
                .status,
            0);
  const std::string step = "steps:\n  - sulfite.addition: {target free SO2: 30 mg/L}\n";
  const auto recipe = book.folder.write("each.yaml", "recipe: day\nlots: {each: from book}\n" + step).string();
  const auto run = [&](const std::string& file, std::vector<std::string> more) {
    more.insert(more.begin(), {"run", file, "--book", book.file.string(), "--at", "2026-10-04 08:00"});
    return call(more);
  };
  const auto table = [&](const std::string& rows) { return book.folder.write("lots.csv", rows).string(); };
  const auto said = run(recipe, {"--lots", table("lot,free SO2 [mg/L],total SO2 [mg/L]\nT5,12,52\nT6,,\nT9,1,2\n"),
                                 "--format", "csv", "--keep", "--by", "Ann"});
  EXPECT_EQ(said.status, 1) << said.err;
  says(said.out, "there is no lot 'T9' in this book");
  const std::pair<const char*, const char*> singles[] = {{"T5", "{from: book, free SO2: 12 mg/L, total SO2: 52 mg/L}"},
                                                         {"T6", "from book"}};
  const auto exported = book({"export"}).out;
  std::vector<Json> kept;
  std::istringstream lines(exported);
  for (std::string line; std::getline(lines, line);)
    if (const auto entry = Json::parse(line); entry["kind"] == "kept" && entry["who"] == "Ann")
      kept.push_back(entry["payload"]["sheet"]);
  ASSERT_EQ(kept.size(), std::size(singles));
  for (std::size_t i = 0; i < kept.size(); ++i) {
    const auto& [lot, from] = singles[i];
    const auto alone =
        book.folder.write("one.yaml", std::string("recipe: day\nlots: {") + lot + ": " + from + "}\n" + step).string();
    const auto sheet = Json::parse(run(alone, {"--format", "json"}).out);
    const auto amount = sheet["steps"][0]["additions"][0]["amount"];
    EXPECT_GT(amount["value"], 0) << lot;
    EXPECT_EQ(kept[i]["steps"][0]["additions"][0]["amount"], amount) << lot;
    EXPECT_EQ(kept[i]["lots"][lot]["before"], sheet["lots"][lot]["before"]) << lot;
  }
  // What was done is not typed again, in no cell and not for all.
  const auto account =
      run(recipe, {"--lots", table("lot,acid added [g/L as tartaric acid]\nT5,0\n"), "--format", "csv"});
  says(account.out, "'acid added' of lot 'T5' stands in the book");
  const auto all = book.folder
                       .write("all.yaml",
                              "recipe: day\nlots: {each: {from: book, acid added: 0 g/L as tartaric "
                              "acid}}\n" +
                                  step)
                       .string();
  says(run(all, {"--lots", table("lot,pH\nT5,3.4\n"), "--format", "csv"}).out, "stands in the book");
}

TEST(BookMore, UncertaintyFromTheBook) {
  const CellarBook book;
  const auto run = [&] {
    std::string recipe = pink_recipe(acid);
    recipe.replace(recipe.find("rules:"), 0, "uncertainty: from book\n");
    return call(
        {"run", book.folder.write("today.yaml", recipe).string(), "--book", book.file.string(), "--format", "json"});
  };
  EXPECT_EQ(run().status, 2);
  says(run().err, "there is no book here yet");
  double squares = 0;
  constexpr int cases = 5;
  for (int i = 0; i < cases; ++i) {
    const auto before = i == 0 ? Said{} : run();
    if (i > 0) says(before.out, "the book has too few measured forecasts");
    const std::string lot = "L" + std::to_string(i), id = std::to_string(3 * i + 1);
    ASSERT_LT(book.keep(pink_recipe(acid, "{" + lot + ": " + pink_lot + "}")).status, 2);
    ASSERT_EQ(book({"done", id}).status, 0);
    const double off = 0.01 * i + 0.01;
    ASSERT_EQ(book({"measure", lot, "pH=" + std::to_string(book.number(lot, "pH") + off)}).status, 0);
    squares += off * off;
  }
  const auto said = run();
  ASSERT_LT(said.status, 2) << said.err;
  const auto sheet = Json::parse(said.out);
  const auto& ph = sheet["steps"][0]["results"]["pH"];
  ASSERT_FALSE(ph.is_null()) << sheet["steps"][0]["results"].dump(1);
  EXPECT_NEAR(ph["uncertainty"].get<double>(), std::sqrt(squares / cases), 1e-6);
  EXPECT_EQ(ph["mostly from"], "how far 5 such forecasts of this cellar were off");
  says(said.out, "measured less forecast is +0.030");
  // The sheet carries it: it verifies without the book.
  const auto file = book.folder.write("today.json", said.out);
  fs::remove(book.file);
  const auto verdict = call({"verify", file.string()});
  EXPECT_EQ(verdict.out.find("DIFFERS"), std::string::npos) << verdict.out;
  EXPECT_LT(verdict.status, 2) << verdict.err;
}

TEST(BookMore, TheHarvestIsKept) {
  const Folder folder;
  const auto said =
      run_program(source_dir / "recipes/book-of-a-harvest/run", {(folder.path() / "harvest.book").string()},
                  "PATH=" + quoted((build_dir / "bin").string()) + ":$PATH");
  EXPECT_EQ(said.status, 0) << said.err;
  says(said.out, "in order");
}

}  // namespace book_more_test
