// What was added to a lot, by its cellar book and by earlier steps, is told to the calculation of the label.
#include <gtest/gtest.h>

#include "tests/host/book.hpp"

#include <set>

namespace book_went_in_test {

using namespace vatwright;
using namespace vatwright::test;
using Json = nlohmann::json;

// The substances that the label's step was told, by the sheet.
std::set<std::string> told(const Json& sheet) {
  std::set<std::string> names;
  const auto& inputs = sheet.at("steps").back().at("inputs");
  if (inputs.contains("treatments"))
    for (const auto& row : inputs["treatments"]["value"]) names.insert(row.at("substance").at("value"));
  return names;
}

std::set<std::string> label_of(const CellarBook& book, const std::string& lot, const std::string& at = "2026-10-09",
                               const std::string& step = "label.ingredients: {}") {
  std::vector<std::string> words{
      "run",
      book.folder.write("label.yaml", "recipe: label\nlots: {" + lot + ": from book}\nsteps:\n  - " + step + "\n")
          .string(),
      "--book",
      book.file.string(),
      "--format",
      "json"};
  if (!at.empty()) words.insert(words.end(), {"--at", at});
  const Said said = call(words);
  EXPECT_LT(said.status, 2) << said.err;
  return told(Json::parse(said.out));
}

std::string dose(const std::string& lot, const std::string& substance, const std::string& volume) {
  return "recipe: dose\nlots: {" + lot + ": " + (volume.empty() ? "from book" : "{volume: " + volume + ", pH: 3.3}") +
         "}\nsteps:\n  - cellar.dose: {substance: " + substance + ", dose: 10 g/hL}\n";
}

// Two lots, each with its own past, joined; then one more dose, one that was a slip, and one that is only planned.
TEST(BookWentIn, TheLabelStartsFromTheBook) {
  const CellarBook book;
  const auto keep = [&](const std::string& recipe, const std::string& day) {
    const Said said = book.keep(recipe, {"--at", "2026-10-" + day + " 08:00"});
    ASSERT_LT(said.status, 2) << said.err;
  };
  const auto work = [&](const std::string& number, const std::string& day) {
    const Said said = book({"done", number, "--at", "2026-10-" + day + " 09:00"});
    ASSERT_EQ(said.status, 0) << said.err;
  };
  keep(dose("T5", "bentonite", "10 hL"), "01");                                                       // 1
  work("1", "01");                                                                                    // 2
  keep(dose("T7", "gum arabic", "10 hL"), "02");                                                      // 3
  work("3", "02");                                                                                    // 4
  keep(dose("T7", "casein", ""), "03");                                                               // 5
  work("5", "03");                                                                                    // 6
  ASSERT_EQ(book({"withdraw", "6", "--why", "another tank", "--at", "2026-10-03 10:00"}).status, 0);  // 7
  keep(
      "recipe: join\nlots: {T5: from book, T7: from book}\nsteps:\n  - blend.mix: {lots: {T5: 10 hL, T7: 4 hL}, "
      "into: J}\n",
      "04");                                                                                // 8
  work("8", "04");                                                                          // 9
  keep(dose("J", "tannin", ""), "05");                                                      // 10
  work("10", "05");                                                                         // 11
  keep(dose("J", "lysozyme", ""), "06");                                                    // 12: planned alone
  keep(dose("T7", "isinglass", ""), "07");                                                  // 13: after the join
  work("13", "07");                                                                         // 14
  ASSERT_EQ(book({"measure", "T5", "volume=8 hL", "--at", "2026-10-08 08:00"}).status, 0);  // another wine's by now
  EXPECT_EQ(label_of(book, "J"), (std::set<std::string>{"bentonite", "gum arabic", "tannin"}));
  EXPECT_EQ(label_of(book, "J", "2026-10-04 12:00"), (std::set<std::string>{"bentonite", "gum arabic"}));
  EXPECT_EQ(label_of(book, "T7"), (std::set<std::string>{"gum arabic", "isinglass"}));
  EXPECT_EQ(label_of(book, "T5"), std::set<std::string>());
  EXPECT_EQ(label_of(book, "J", "2026-10-09",
                     "label.ingredients: {treatments: [{substance: tannin}, {substance: nitrogen}]}"),
            (std::set<std::string>{"bentonite", "gum arabic", "tannin", "nitrogen"}));
}

// The sheet carries what the book had, and verifies without it.
TEST(BookWentIn, TheSheetVerifiesWithoutTheBook) {
  const CellarBook book;
  ASSERT_LT(book.keep(dose("T5", "gum arabic", "10 hL"), {"--at", "2026-10-01 08:00"}).status, 2);
  ASSERT_EQ(book({"done", "1", "--at", "2026-10-01 09:00"}).status, 0);
  const auto recipe =
      book.folder.write("label.yaml", "recipe: label\nlots: {T5: from book}\nsteps: [label.ingredients]\n").string();
  const auto sheet = (book.folder.path() / "label.json").string();
  ASSERT_LT(call({"run", recipe, "--book", book.file.string(), "--format", "json", "--out", sheet}).status, 2);
  fs::remove(book.file);
  const Said verdict = call({"verify", sheet});
  EXPECT_LT(verdict.status, 2) << verdict.err;
  EXPECT_EQ(verdict.out.find("DIFFERS"), std::string::npos) << verdict.out;
}

}  // namespace book_went_in_test
