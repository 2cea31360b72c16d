// Files that no recipe is: too large, too deep, too many values, or no text at all.
#include "tests/host/house.hpp"

#include <gtest/gtest.h>

#include <chrono>

namespace hostile_file_test {

using namespace vatwright::test;

std::string repeated(const std::string& part, int times) {
  std::string out;
  for (int i = 0; i < times; ++i) out += part;
  return out;
}

// Refused for the file as a whole, where there is no place to point at.
void expect_refused(const fs::path& file, const std::string& says, const std::string& place = {}) {
  const auto said = call({"run", file.string()});
  EXPECT_EQ(said.status, 2) << said.err;
  EXPECT_EQ(said.out, "");
  const std::string begins = file.string() + place + ": ";
  EXPECT_EQ(said.err.substr(0, begins.size()), begins) << said.err;
  EXPECT_NE(said.err.find(says), std::string::npos) << said.err;
  EXPECT_EQ(said.err.find(file.string(), 1), std::string::npos) << "more than one message: " << said.err;
}

TEST(HostileFileTest, LargerThanTheLimit) {
  const Folder folder;
  expect_refused(folder.write("large.yaml", "recipe: " + std::string(2 << 20, 'x')), "1024 KiB");
}

TEST(HostileFileTest, AsLargeAsTheLimitIsRead) {
  const std::string head = recipe_with("", "  - sulfite.molecular\n") + "# ";
  EXPECT_EQ(complaint(head + std::string((1 << 20) - head.size(), 'x')), "");
}

TEST(HostileFileTest, Empty) {
  const Folder folder;
  expect_refused(folder.write("empty.yaml", ""), "expected a recipe", ":1:1");
  expect_refused(folder.write("blank.yaml", " \n\n"), "expected a recipe", ":1:1");
}

TEST(HostileFileTest, OnlyAComment) {
  const auto said = complaint("# nothing yet\n");
  EXPECT_NE(said.find("expected a recipe"), std::string::npos) << said;
}

// However a recipe is cut short, whatever is said of it has its place.
TEST(HostileFileTest, CutShortAnywhere) {
  TestHouse house;
  const std::string whole = "# of a pink\n" + recipe_with("", "  - sulfite.molecular: {pK1: 1.81}\n");
  const auto has_its_place = [](const vatwright::Problem& problem) {
    EXPECT_GE(problem.place.line, 1) << problem.message;
    EXPECT_GE(problem.place.column, 1) << problem.message;
  };
  for (std::size_t bytes = 0; bytes < whole.size(); ++bytes) {
    SCOPED_TRACE(bytes);
    try {
      house.run(whole.substr(0, bytes));
    } catch (const vatwright::BadInput& error) {
      for (const auto& problem : error.problems()) has_its_place(problem);
    } catch (const vatwright::PluginError& error) {  // half a calculation's name
      has_its_place(error.problem());
    }
  }
}

TEST(HostileFileTest, ZeroByte) {
  const Folder folder;
  expect_refused(folder.write("binary.yaml", std::string("recipe: a\0b\n", 12)), "zero byte", ":1:10");
  expect_refused(folder.write("later.yaml", std::string("recipe: a\nlots: {\0}\n", 20)), "zero byte", ":2:8");
}

// 0xB5 is the micro sign in Latin-1, and no whole character in UTF-8.
TEST(HostileFileTest, NotUtf8) {
  const auto said = complaint("recipe: a\n# 20 \xB5g/L\nlots: {}\n");
  EXPECT_EQ(said, "recipe.yaml:2:6: byte 6 of this line is not UTF-8\n  save the file as UTF-8");
  EXPECT_NE(complaint("recipe: \xC2").find("1:9: byte 9"), std::string::npos);
}

TEST(HostileFileTest, Folder) {
  const Folder folder;
  expect_refused(folder.path(), "is a folder");
}

TEST(HostileFileTest, Missing) {
  const Folder folder;
  expect_refused(folder.path() / "none.yaml", "no such file");
}

TEST(HostileFileTest, Unreadable) {
  if (::geteuid() == 0) GTEST_SKIP() << "the superuser reads every file; the folder stands for this case";
  const Folder folder;
  const auto file = folder.write("locked.yaml", "recipe: a\n");
  fs::permissions(file, fs::perms::none);
  expect_refused(file, "cannot be read");
}

TEST(HostileFileTest, ThirtyTwoDeepIsReadAndOneMoreIsNot) {
  using vatwright::Document;
  EXPECT_NO_THROW(Document::read("r", repeated("[", 32) + "x" + repeated("]", 32)));
  const auto said = complaint(repeated("[", 40) + "x" + repeated("]", 40));
  EXPECT_EQ(said.substr(0, 18), "recipe.yaml:1:33: ") << said;
  EXPECT_NE(said.find("nested more than 32 deep"), std::string::npos) << said;
}

TEST(HostileFileTest, AliasesDoNotGetRoundTheDepth) {
  const std::string deep = repeated("[", 31) + "x" + repeated("]", 31);  // and the map around it: 32
  EXPECT_NO_THROW(vatwright::Document::read("r", "a: &a " + deep + "\nb: *a\n"));
  EXPECT_THROW(vatwright::Document::read("r", "a: &a " + deep + "\nb: [*a]\n"), vatwright::BadInput);
}

TEST(HostileFileTest, FiftyThousandValuesAreReadAndOneMoreIsNot) {
  using vatwright::Document;
  const std::string list = "[x" + repeated(",x", 49'998);  // and the list itself
  EXPECT_NO_THROW(Document::read("r", list + "]"));
  const auto said = complaint(list + ",x]");
  // '[' and 'x,' for each value before the one too many.
  EXPECT_EQ(said.substr(0, 22), "recipe.yaml:1:100000: ") << said;
  EXPECT_NE(said.find("more than 50000 values"), std::string::npos) << said;
}

// Nine in each of nine levels would be 387 million values.
TEST(HostileFileTest, AliasBomb) {
  std::string text = "l0: &l0 [x,x,x,x,x,x,x,x,x]\n";
  for (int i = 1; i < 9; ++i) {
    const std::string below = "*l" + std::to_string(i - 1) + " ";
    text += "l" + std::to_string(i) + ": &l" + std::to_string(i) + " [" + below + repeated("," + below, 8) + "]\n";
  }
  const auto begin = std::chrono::steady_clock::now();
  const auto said = complaint(text);
  EXPECT_LT(std::chrono::steady_clock::now() - begin, std::chrono::seconds(2));
  // A list of level n holds s(n) = 9 s(n-1) + 1 values: 10, 91, 820, 7381. With their keys and the
  // map around them, lines 1 to 4 make 8307 values; the sixth list in line 5 is too much.
  EXPECT_EQ(said.substr(0, 18), "recipe.yaml:5:35: ") << said;
  EXPECT_NE(said.find("more than 50000 values"), std::string::npos) << said;
}

// One long text, repeated: few values, and 5 GB of them.
TEST(HostileFileTest, AliasesOfALongText) {
  const auto said = complaint("a: &a " + std::string(500'000, 'x') + "\nb: [*a " + repeated(",*a ", 9'000) + "]\n");
  EXPECT_EQ(said.substr(0, 18), "recipe.yaml:2:13: ") << said.substr(0, 200);
  EXPECT_NE(said.find("aliases repeat more text"), std::string::npos);
}

TEST(HostileFileTest, KeyThatIsNoWord) {
  const auto said = complaint("recipe: a\n? [x, y]\n: b\n");
  EXPECT_EQ(said.substr(0, 17), "recipe.yaml:2:3: ") << said;
  EXPECT_NE(said.find("a key that is not a word"), std::string::npos) << said;
}

}  // namespace hostile_file_test
