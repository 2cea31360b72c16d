// The cellar book: what is kept, done and measured comes back, chained, and nothing is typed twice.
#include <gtest/gtest.h>

#include <regex>

#include "host/files/hash.hpp"
#include "tests/host/book.hpp"

namespace book_test {

using namespace vatwright;
using namespace vatwright::test;
using Json = nlohmann::json;

bool says(const std::string& text, const std::string& part) {
  if (text.find(part) != std::string::npos) return true;
  ADD_FAILURE() << "no '" << part << "' in: " << text;
  return false;
}

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> out;
  std::istringstream in(text);
  for (std::string line; std::getline(in, line);) out.push_back(line);
  return out;
}

TEST(Book, ReadingsComeBackWithTheirOrigin) {
  const CellarBook book;
  const auto said = book({"measure", "T7", "volume=48 hL", "pH=3.42 ± 0.02", "free SO2=24 ± 2 mg/L", "--by", "Ann",
                          "--sample", "A-12", "--at", "2026-10-03T09:30:00+02:00"});
  ASSERT_EQ(said.status, 0) << said.err;
  const auto ph = book.fact("T7", "pH");
  EXPECT_EQ(ph["value"], 3.42);
  EXPECT_EQ(ph["uncertainty"], 0.02);
  EXPECT_EQ(ph["from"], "reading");
  EXPECT_EQ(ph["by"], "Ann");
  EXPECT_EQ(ph["sample"], "A-12");
  EXPECT_EQ(ph["at"], "2026-10-03T09:30:00+02:00");
  const auto text = book({"lot", "T7"}).out;
  says(text, "3.42 ± 0.02");
  says(text, "read 2026-10-03 09:30 by Ann, sample");
  says(text, "A-12");
  says(book({"lots"}).out, "24 ± 2 mg/L");
  EXPECT_EQ(book({"check"}).status, 0);
}

// The chain by its own words, outside the program: SHA-256 of the lines of an entry.
TEST(Book, TheChainIsWhatItSaysItIs) {
  const CellarBook book;
  for (const char* reading : {"pH=3.4", "pH=3.41", "pH=3.42"}) ASSERT_EQ(book({"measure", "T7", reading}).status, 0);
  std::string previous(64, '0');
  int number = 0;
  for (const auto& line : lines_of(book({"export"}).out)) {
    const Json entry = Json::parse(line);
    const auto at = line.find(",\"payload\":") + 11;
    const std::string payload = line.substr(at, line.size() - 1 - at);
    EXPECT_EQ(entry["entry"], ++number);
    EXPECT_EQ(entry["previous"], previous);
    std::string text = previous + "\n" + std::to_string(number);
    for (const char* member : {"kind", "at", "entered", "who"}) text += "\n" + entry[member].get<std::string>();
    previous = sha256_of(text + "\n" + payload);
    EXPECT_EQ(entry["hash"], previous);
  }
  EXPECT_EQ(number, 3);
}

TEST(Book, AnExportImportedIntoANewBookIsTheSameBook) {
  const CellarBook book, other;
  ASSERT_EQ(book.keep(pink_recipe("  - acid.addition: {target pH: 3.30}\n")).status, 0);
  ASSERT_EQ(book({"done", "1", "--by", "Ann"}).status, 0);
  ASSERT_EQ(book({"measure", "T5", "pH=3.31"}).status, 0);
  const auto exported = other.folder.path() / "book.jsonl";
  ASSERT_EQ(book({"export", "--out", exported.string()}).status, 0);
  ASSERT_EQ(other({"import", exported.string()}).status, 0);
  EXPECT_EQ(other({"export"}).out, book({"export"}).out);
  for (const auto& words : {std::vector<std::string>{"lots", "--format", "json"},
                            {"lot", "T5", "--format", "json"},
                            {"history", "T5", "--format", "json"}})
    EXPECT_EQ(other(words).out, book(words).out);
  EXPECT_EQ(other({"check"}).status, 0);
  // Once more brings nothing; what came since is brought.
  says(other({"import", exported.string()}).out, "0 entries imported, 3 in all");
  // A figure that was changed on the way is found.
  const auto changed = std::regex_replace(contents(exported), std::regex("3\\.31"), "3.13");
  const CellarBook third;
  const auto refused = third({"import", third.folder.write("changed.jsonl", changed).string()});
  EXPECT_EQ(refused.status, 2);
  says(refused.err, "changed.jsonl:3: entry 3 is not as it was written");
  EXPECT_EQ(third.json({"lots"})["lots"].size(), 0U);
}

TEST(Book, WorkIsPlannedAndDoneWithWhatWasWeighed) {
  const CellarBook book;
  const auto kept =
      book.keep(pink_recipe("  - acid.addition: {target pH: 3.30}\n  - sulfite.addition: {target free SO2: 25 mg/L}\n"),
                {"--by", "Ann", "--format", "json"});
  ASSERT_LT(kept.status, 2) << kept.err;
  says(kept.err, "1.1.1  ");
  const Json sheet = Json::parse(kept.out);
  const double planned = sheet["steps"][0]["additions"][0]["amount"]["value"];
  // Planned is not done.
  EXPECT_EQ(book.number("T5", "acid added"), 0);
  EXPECT_EQ(book.number("T5", "pH"), 3.48);
  const double weighed = std::round(0.9 * planned);
  const auto done = book({"done", "1.1", "--weighed", std::to_string(weighed) + " g", "--batch", "L-1", "--by", "Bea"});
  ASSERT_EQ(done.status, 0) << done.err;
  says(done.out, "of T5 only forecast now, to be measured: ");
  says(done.out, "pH");
  // Of tartaric acid that is 90 % of the acid.
  const double added = sheet["steps"][0]["leaves"]["T5"]["acid added"]["value"];
  EXPECT_NEAR(book.number("T5", "acid added"), added * weighed / planned, 1e-9);
  const double forecast = sheet["steps"][0]["leaves"]["T5"]["pH"]["value"];
  EXPECT_NEAR(book.number("T5", "pH"), 3.48 + (forecast - 3.48) * weighed / planned, 1e-9);
  EXPECT_EQ(book.fact("T5", "pH")["from"], "forecast");
  EXPECT_EQ(book.fact("T5", "pH")["by"], "acid.addition");
  const auto open = book.json({"lot", "T5"})["open"];
  ASSERT_EQ(open.size(), 1U);
  EXPECT_EQ(open[0]["id"], "1.2.1");
  // Not twice.
  const auto again = book({"done", "1.1"});
  EXPECT_EQ(again.status, 2);
  says(again.err, "1.1.1 (done: entry 2)");
  ASSERT_EQ(book({"done", "1"}).status, 0);
  EXPECT_TRUE(book.json({"lot", "T5"})["open"].empty());
  says(book({"history", "T5"}).out, "batch L-1; by Bea");
  EXPECT_EQ(book({"check"}).status, 0);
}

TEST(Book, ASlipIsCorrectedByAFurtherEntry) {
  const CellarBook book;
  ASSERT_EQ(book({"measure", "T7", "volume=10 hL", "pH=3.42"}).status, 0);
  ASSERT_EQ(book({"measure", "T7", "pH=3.24"}).status, 0);
  ASSERT_EQ(book({"measure", "T7", "pH=3.44", "--corrects", "2"}).status, 0);
  EXPECT_EQ(book.number("T7", "pH"), 3.44);
  says(book({"history", "T7"}).out, "NO LONGER STANDS: entry 3");
  ASSERT_EQ(book({"withdraw", "3", "--why", "another tank"}).status, 0);
  EXPECT_EQ(book.number("T7", "pH"), 3.42);
  const auto again = book({"withdraw", "2", "--why", "another tank"});
  EXPECT_EQ(again.status, 2);
  says(again.err, "entry 2 no longer stands: entry 3 took its place");
  EXPECT_EQ(lines_of(book({"export"}).out).size(), 4U);
  EXPECT_EQ(book({"check"}).status, 0);
}

TEST(Book, DoneThatWasASlipIsReportedAnew) {
  const CellarBook book;
  ASSERT_LT(book.keep(pink_recipe("  - acid.addition: {target pH: 3.30}\n")).status, 2);
  ASSERT_EQ(book({"done", "1"}).status, 0);
  const double all = book.number("T5", "acid added");
  const auto anew = book({"done", "1", "--weighed", "100 g", "--corrects", "2"});
  ASSERT_EQ(anew.status, 0) << anew.err;
  EXPECT_LT(book.number("T5", "acid added"), all);
  EXPECT_GT(book.number("T5", "acid added"), 0);
  EXPECT_EQ(book({"check"}).status, 0);
}

// Entered late, it is in its place all the same.
TEST(Book, WhatHappenedBeforeIsEnteredLate) {
  const CellarBook book;
  ASSERT_EQ(book({"measure", "T7", "volume=10 hL", "pH=3.42", "--at", "2026-10-01"}).status, 0);
  ASSERT_EQ(book({"measure", "T7", "pH=3.46", "--at", "2026-10-05"}).status, 0);
  ASSERT_EQ(book({"measure", "T7", "pH=3.44", "free SO2=20 mg/L", "--at", "2026-10-03"}).status, 0);
  EXPECT_EQ(book.number("T7", "pH"), 3.46);
  EXPECT_EQ(book.number("T7", "free SO2"), 20);
  EXPECT_EQ(book.json({"lot", "T7", "--at", "2026-10-04"})["facts"]["pH"]["value"], 3.44);
  EXPECT_FALSE(book.json({"lot", "T7", "--at", "2026-10-02"})["facts"].contains("free SO2"));
  const auto before = book({"lot", "T7", "--at", "2026-09-30"});
  EXPECT_EQ(before.status, 2);
  says(before.err, "there is no lot 'T7' in this book at that time");
  EXPECT_EQ(book({"check"}).status, 0);
}

TEST(Book, ASheetOnAnEmptyMemoryIsNotKept) {
  const CellarBook book;
  ASSERT_LT(book.keep(pink_recipe("  - acid.addition: {target pH: 3.40}\n")).status, 2);
  ASSERT_EQ(book({"done", "1"}).status, 0);
  const auto forgets = book.keep(pink_recipe("  - sulfite.addition: {target free SO2: 25 mg/L}\n"));
  EXPECT_EQ(forgets.status, 2);
  says(forgets.err, "with acid added none, the book has");
  says(forgets.err, "T5: from book");
}

TEST(Book, TheSameSheetIsKeptOnce) {
  const CellarBook book;
  const auto recipe = pink_recipe("  - acid.addition: {target pH: 3.40}\n");
  ASSERT_LT(book.keep(recipe).status, 2);
  const auto again = book.keep(recipe);
  EXPECT_EQ(again.status, 2);
  says(again.err, "this sheet is kept already, as entry 1");
}

// A blend of blends: accounts by the volumes, volumes by what was drawn, ancestors with their shares.
TEST(Book, AccountsFollowThroughBlends) {
  const CellarBook book;
  const auto lot = [](const char* volume, const char* acid, const char* pvpp) {
    return std::string("{class: still, colour: pink, stage: wine, volume: ") + volume +
           ", pH: 3.4, titratable acidity: 5 g/L, ethanol: 12 % vol, sugar: 1 g/L, acid added: " + acid +
           " g/L, treated with: {PVPP: " + pvpp + " g/hL}}";
  };
  const auto recipe = pink_recipe(
      "  - blend.mix: {lots: {A: 30 hL, B: 10 hL}, into: AB}\n  - blend.mix: {lots: {AB: 20 hL, C: 20 hL}, into: "
      "ABC}\n",
      "{A: " + lot("40 hL", "1", "20") + ", B: " + lot("10 hL", "2", "60") + ", C: " + lot("30 hL", "0", "0") + "}");
  const auto kept = book.keep(recipe);
  ASSERT_LT(kept.status, 2) << kept.err;
  const auto late = book({"done", "1.2"});
  EXPECT_EQ(late.status, 2);
  says(late.err, "report the step that makes it first");
  ASSERT_EQ(book({"done", "1"}).status, 0);
  EXPECT_NEAR(book.number("AB", "acid added"), 1.25, 1e-9);
  EXPECT_NEAR(book.number("ABC", "acid added"), 0.625, 1e-9);
  EXPECT_NEAR(book.fact("ABC", "treated with")["value"]["PVPP"].get<double>(), 150, 1e-6);
  EXPECT_NEAR(book.number("A", "volume"), 1000, 1e-6);
  EXPECT_EQ(book.number("B", "volume"), 0);
  EXPECT_NEAR(book.number("C", "volume"), 1000, 1e-6);
  const auto ancestors = book.json({"lot", "ABC"})["ancestors"];
  ASSERT_EQ(ancestors.size(), 4U);
  EXPECT_EQ(ancestors[1]["lot"], "A");
  EXPECT_NEAR(ancestors[1]["share"].get<double>(), 0.375, 1e-9);
  // An empty vessel takes a new wine, which has nothing of the old one.
  ASSERT_EQ(book({"measure", "B", "volume=5 hL", "pH=3.3"}).status, 0);
  EXPECT_TRUE(book.fact("B", "acid added").is_null());
  EXPECT_EQ(book({"check"}).status, 0);
}

TEST(Book, SlipsAreAnsweredInWords) {
  const CellarBook book;
  const auto none = book({"lots"});
  EXPECT_EQ(none.status, 2);
  says(none.err, "there is no book here yet");
  EXPECT_EQ(book({"measure", "T7", "pH=34.2"}).status, 2);
  EXPECT_EQ(book({"measure", "T7", "fre SO2=24 mg/L"}).status, 2);
  EXPECT_EQ(book({"measure", "T7", "free SO2=24"}).status, 2);
  EXPECT_EQ(book({"measure", "T7", "pH=3.4", "pH=3.5"}).status, 2);
  EXPECT_EQ(book({"measure", "T7", "free SO2=50 mg/L", "total SO2=20 mg/L"}).status, 2);
  EXPECT_EQ(book({"measure", "=T7", "pH=3.4"}).status, 2);
  EXPECT_EQ(book({"measure", "T7", "pH=3.4", "--at", "yesterday"}).status, 2);
  EXPECT_EQ(book({"measure", "T7", "pH=3.4", "--by", "A\nB"}).status, 2);
  EXPECT_EQ(book({"measure", std::string(300, 'x'), "pH=3.4"}).status, 2);
  EXPECT_EQ(book({"done", "1"}).status, 2);
  // Nothing of it was entered.
  EXPECT_EQ(book({"export"}).out, "");
  says(book({"lots"}).out, "no lots yet");
  ASSERT_EQ(book({"measure", "T7", "pH=3.4"}).status, 0);
  says(book({"lot", "t7"}).err, "T7");
  says(call({"book"}).err, "expected a command");
  says(call({"book", "measre", "T7"}).err, "measure");
}

TEST(Book, WhereItIsByDefault) {
  const Folder home;
  const auto said = call({"book", "where"}, "XDG_DATA_HOME=" + quoted(home.path().string()));
  EXPECT_EQ(said.status, 0);
  says(said.out, (home.path() / "vatwright/cellar.book").string());
  ASSERT_EQ(call({"book", "measure", "T7", "pH=3.4"}, "XDG_DATA_HOME=" + quoted(home.path().string())).status, 0);
  EXPECT_TRUE(fs::exists(home.path() / "vatwright/cellar.book"));
  says(call({"book", "where"}, "env -u XDG_DATA_HOME HOME=" + quoted(home.path().string())).out,
       ".local/share/vatwright/cellar.book");
}

TEST(Book, ACopyIsTheSameBook) {
  const CellarBook book;
  ASSERT_EQ(book({"measure", "T7", "pH=3.4"}).status, 0);
  const auto copy = (book.folder.path() / "copy.book").string();
  ASSERT_EQ(book({"copy", copy}).status, 0);
  EXPECT_EQ(call({"book", "export", "--book", copy}).out, book({"export"}).out);
  EXPECT_EQ(book({"copy", copy}).status, 2);
}

}  // namespace book_test
