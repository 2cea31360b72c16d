// A page of text at every width: nothing beside it, and a row of a table stays one thing to read.
#include "host/sheet/page.hpp"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <sstream>
#include <utility>

#include "tests/host/house.hpp"

namespace page_test {

using namespace vatwright;
using namespace vatwright::test;

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  std::istringstream in(text);
  for (std::string line; std::getline(in, line);) lines.push_back(line);
  return lines;
}

std::size_t seen(const std::string& line) {
  return static_cast<std::size_t>(std::count_if(line.begin(), line.end(), [](char c) { return (c & 0xC0) != 0x80; }));
}

std::size_t widest(const std::string& text) {
  std::size_t width = 0;
  for (const auto& line : lines_of(text)) width = std::max(width, seen(line));
  return width;
}

// The first line that holds `words`.
std::string line_with(const std::string& text, const std::string& words) {
  for (const auto& line : lines_of(text))
    if (line.find(words) != std::string::npos) return line;
  ADD_FAILURE() << "'" << words << "' is not there:\n" << text;
  return {};
}

// A list of portions as a nutrient plan has one: words, figures, words.
std::string portions(std::size_t width) {
  Page page({.colour = false, .width = width});
  page.columns({{"portion", true}, {"weigh, g"}, {"when it goes in, and what to look at before that", true}},
               {{"first", "1440.5", "when the yeast has been in for a day and the must is at 18 °C or warmer"},
                {"second", "720.25", "when a third of the sugar is gone, by the density; never after half of it"}});
  return page.text();
}

TEST(PageTest, ATableKeepsWithinThePage) {
  for (const std::size_t width : {40U, 48U, 60U, 72U, 96U})
    EXPECT_LE(widest(portions(width)), width) << portions(width);
}

// A figure on another line than its portion would be weighed for the wrong one.
TEST(PageTest, AFigureStandsOnTheLineOfItsRow) {
  for (const std::size_t width : {48U, 60U, 72U, 96U}) {
    EXPECT_NE(line_with(portions(width), "first").find("1440.5"), std::string::npos) << portions(width);
    EXPECT_NE(line_with(portions(width), "second").find("720.25"), std::string::npos) << portions(width);
  }
}

TEST(PageTest, ATableThatCannotBeNarrowerIsAListOfItsRows) {
  Page page({.colour = false, .width = 40});
  page.columns({{"plot", true}, {"sugar, g/L"}, {"titratable acidity, g/L"}, {"potential alcohol, % vol"}, {"pH"}},
               {{"Upper Terrace", "198.25", "7.125", "11.75", "3.25"}, {"Gravel Bank", "201.5", "6.5", "12.0", "3.3"}});
  EXPECT_LE(widest(page.text()), 40U) << page.text();
  const auto lines = lines_of(page.text());
  ASSERT_EQ(lines.size(), 10U) << page.text();
  EXPECT_EQ(lines[0], "  plot: Upper Terrace");
  EXPECT_EQ(lines[2], "    titratable acidity, g/L: 7.125");
  EXPECT_EQ(lines[5], "  plot: Gravel Bank");
}

TEST(PageTest, AFigureKeepsItsSpreadAndItsPerCent) {
  for (std::size_t width = 40; width < 80; ++width) {
    Page page({.colour = false, .width = width});
    page.wrapped("what was found in the must of today is 21.3 ± 2.9 mg/L, and 76 % of the\u00a0± is from the pH", 2);
    for (const auto* together : {"21.3 ± 2.9", "76 %", "the ±"}) line_with(page.text(), together);
    EXPECT_EQ(page.text().find("\u00a0"), std::string::npos) << "a no-break space is plain on paper";
  }
}

// --- the terminal

// `command` in a terminal so many columns wide, with `before` in its environment.
std::string in_terminal(const std::string& columns, const std::string& arguments, const std::string& before = "") {
  const auto inside = fmt::format("stty cols {}; NO_COLOR=1 {} {} {}", columns, before,
                                  quoted((build_dir / "bin/vatwright").string()), arguments);
  const auto said = run_program("/usr/bin/script", {"-qec", inside, "/dev/null"});
  std::string out, line;  // after a carriage return alone the line is written anew: progress
  for (std::size_t i = 0; i < said.out.size(); ++i) {
    if (said.out[i] == '\r' && said.out.compare(i, 2, "\r\n") != 0) line.clear();
    if (said.out[i] != '\r') line += said.out[i];
    if (said.out[i] == '\n') out += std::exchange(line, {});
  }
  return out + line;
}

TEST(TerminalTest, TheSheetIsNoWiderThanTheTerminal) {
  ASSERT_TRUE(fs::exists("/usr/bin/script")) << "install the package bsdutils to run this test";
  const auto run = fmt::format("run {}", quoted((source_dir / "recipes/nutrient-for-a-must.yaml").string()));
  const auto names_itself = [](std::string page) {  // the path of the recipe is one word, whatever its length
    const auto at = page.find("recipe "), end = page.find("program");
    return page.erase(at, end - at);
  };
  for (const std::string columns : {"60", "80"}) {
    const auto page = names_itself(in_terminal(columns, run, "env -u COLUMNS"));
    EXPECT_EQ(widest(page), std::stoul(columns)) << page;
  }
  EXPECT_EQ(widest(names_itself(in_terminal("200", run, "env -u COLUMNS"))), 96U);
  EXPECT_EQ(widest(names_itself(in_terminal("200", run, "COLUMNS=70"))), 70U);
  EXPECT_EQ(widest(names_itself(in_terminal("80", run, "COLUMNS=wide"))), 80U);
}

TEST(TerminalTest, AFileIsAsWideAsEver) {
  const auto said = call({"run", (source_dir / "recipes/nutrient-for-a-must.yaml").string()}, "COLUMNS=50");
  EXPECT_NE(said.out.find(fmt::format("{}\n", std::string(96, '='))), std::string::npos);
}

}  // namespace page_test
