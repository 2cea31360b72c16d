// Two lots that a person cannot tell apart are no two lots; a character that cannot be seen reaches no sheet and no
// terminal. Drawn over names and over all such characters.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <boost/locale/utf.hpp>

#include "host/files/printable.hpp"
#include "host/recipe/lot_name.hpp"
#include "tests/host/house.hpp"

#include <cctype>
#include <iterator>
#include <random>

namespace look_alike_test {

using namespace vatwright;
using namespace vatwright::test;

std::string utf8(std::uint32_t letter) {
  std::string out;
  boost::locale::utf::utf_traits<char>::encode(letter, std::back_inserter(out));
  return out;
}

// Ways to write a letter that look the same, or nearly so.
std::vector<std::string> disguises(char letter) {
  std::vector<std::string> ways{std::string(1, letter), std::string(1, static_cast<char>(std::toupper(letter))),
                                utf8(0xFF01 + static_cast<std::uint32_t>(letter - '!'))};
  if (letter == 'o') ways.insert(ways.end(), {utf8(0x43E), utf8(0x41E), utf8(0x3BF)});
  if (letter == 'p') ways.insert(ways.end(), {utf8(0x440), utf8(0x420), utf8(0x3A1)});
  if (letter == 't') ways.insert(ways.end(), {utf8(0x422), utf8(0x3A4)});
  return ways;
}

template <class Choices>
const auto& one_of(const Choices& choices, std::mt19937& random) {
  return choices[std::uniform_int_distribution<std::size_t>(0, std::size(choices) - 1)(random)];
}

std::string drawn_name(std::mt19937& random) {
  constexpr std::string_view letters = "optkab279";
  std::string name = "l";
  for (int i = 0; i < 5; ++i) name += one_of(letters, random);
  return name;
}

std::string disguised(const std::string& name, std::mt19937& random) {
  std::string out;
  for (const char letter : name)
    out += letter >= 'a' && letter <= 'z' ? one_of(disguises(letter), random) : std::string(1, letter);
  return out;
}

std::string two_lots(const std::string& one, const std::string& other) {
  const std::string lot = ": {volume: 10 hL, pH: 3.4, free SO2: 14 mg/L}\n";
  return "recipe: test\nlots:\n  " + one + lot + "  " + other + lot + "steps:\n  - sulfite.molecular: {lot: " + one +
         "}\n";
}

TEST(LookAlikeTest, ADisguisedNameIsNoOther) {
  std::mt19937 random(15);
  for (int turn = 0; turn < 500; ++turn) {
    const std::string name = drawn_name(random), other = drawn_name(random);
    EXPECT_EQ(likeness(name), likeness(disguised(name, random))) << name;
    if (name != other) {
      EXPECT_NE(likeness(name), likeness(disguised(other, random))) << name << " " << other;
    }
  }
  for (const auto* spaced : {"P  1", "P\u00a01", "P\u20091", " P 1 ", "P\u200b 1"}) EXPECT_EQ(likeness(spaced), "p 1");
  EXPECT_NE(likeness("P1"), likeness("P 1"));
  EXPECT_EQ(likeness("\u00c9"), likeness("\u00e9"));
}

TEST(LookAlikeTest, ARecipeWithTwoOfThemIsRefused) {
  EXPECT_EQ(complaint(two_lots("P1", "P2")), "");
  for (const auto* other : {"p1", "\u04201", "\uff30\uff11"}) {
    const auto said = complaint(two_lots("P1", other));
    EXPECT_NE(said.find("recipe.yaml:4:3: the lots 'P1' and '"), std::string::npos) << said;
    EXPECT_NE(said.find("look alike"), std::string::npos) << said;
  }
  const std::string lots = "recipe: test\nlots:\n  A: {volume: 10 hL, pH: 3.4}\n  B: {volume: 10 hL, pH: 3.5}\n";
  const auto made = complaint(lots + "steps:\n  - blend.mix: {lots: {A: 5 hL, B: 5 hL}, into: a}\n");
  EXPECT_NE(made.find("there is a lot 'A' already, which looks like 'a'"), std::string::npos) << made;
}

TEST(LookAlikeTest, ATableDosesOnlyTheFirst) {
  const Folder folder;
  const auto recipe = folder.write("r.yaml", "recipe: test\nsteps: [sulfite.molecular]\n");
  const auto table = folder.write("lots.csv", "lot,pH,free SO2 [mg/L]\nP1,3.4,30\nP2,3.4,30\np1,3.4,30\n");
  const auto said = call({"run", recipe.string(), "--lots", table.string(), "--format", "csv"});
  EXPECT_EQ(said.status, 1);
  EXPECT_NE(said.out.find("row 4: lot 'p1' is in row 2 already"), std::string::npos) << said.out;
}

// --- what cannot be seen

std::vector<std::uint32_t> unseen() {
  std::vector<std::uint32_t> all{0x7F, 0x61C, 0x200E, 0x200F};
  const auto span = [&](std::uint32_t first, std::uint32_t last) {
    for (auto c = first; c <= last; ++c) all.push_back(c);
  };
  span(0x01, 0x08);
  span(0x0B, 0x1F);
  span(0x80, 0x9F);
  span(0x202A, 0x202E);
  span(0x2066, 0x2069);
  return all;
}

TEST(LookAlikeTest, WhatCannotBeSeenIsNotPrinted) {
  for (const auto c : unseen()) {
    const std::string text = "P" + utf8(c) + "1";
    EXPECT_FALSE(is_printable(text, true)) << c;
    EXPECT_EQ(printable(text), "P\uFFFD1") << c;
    EXPECT_THROW(check_lot_name(text), InputError) << c;
  }
  for (const auto* plain : {"P 1", "caf\u00e9", "\u05d0\u05d1", "\u200a", "\u00a0", "14 \u00b1 2 mg/L"}) {
    EXPECT_TRUE(is_printable(plain)) << plain;
    EXPECT_EQ(printable(plain), plain);
  }
}

// Written out in a file, or as an escape of YAML.
TEST(LookAlikeTest, NoTextOfARecipeHasIt) {
  constexpr std::uint32_t line_end = '\r';  // as it stands in a file it ends a line
  for (const auto c : unseen())
    for (const std::string& written : {utf8(c), fmt::format("\\u{:04x}", c)}) {
      if (c == line_end && written.size() == 1) continue;
      EXPECT_NE(complaint("recipe: \"day " + written +
                          " one\"\nlots: {A: {pH: 3.4, free SO2: 30 mg/L}}\nsteps: [sulfite.molecular]\n"),
                "")
          << c;
    }
}

TEST(LookAlikeTest, NorDoesATerminalGetItFromASlip) {
  for (const std::uint32_t c : {0x1BU, 0x9BU, 0x202EU, 0x2066U}) {
    const auto said = call({"compute", "sulfite.molecular", "pH=3.4" + utf8(c) + "x", "free SO2=30 mg/L"});
    EXPECT_EQ(said.status, 2);
    EXPECT_EQ(said.err.find(utf8(c)), std::string::npos) << said.err;
  }
}

}  // namespace look_alike_test
