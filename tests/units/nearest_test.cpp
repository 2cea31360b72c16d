#include "units/nearest.hpp"

#include "units/everyday.hpp"

#include <gtest/gtest.h>

#include <array>
#include <string>

namespace vatwright {
namespace nearest_test {

constexpr std::array<std::string_view, 6> known{"tartaric acid", "malic acid", "lactic acid", "mg", "Mg", "volume"};

TEST(Nearest, CountsEachKindOfSlip) {
  EXPECT_EQ(nearest("volme", known), "volume");    // lost
  EXPECT_EQ(nearest("volumee", known), "volume");  // added
  EXPECT_EQ(nearest("vokume", known), "volume");   // changed
  EXPECT_EQ(nearest("voulme", known), "volume");   // swapped
  EXPECT_EQ(nearest("VOLUME", known), "volume");   // six quarters
  EXPECT_EQ(nearest("voume!?", known), "");        // three slips are beyond a third of seven letters
}

TEST(Nearest, TakesASwapForOneSlip) {
  constexpr std::array<std::string_view, 1> only{"mg"};
  EXPECT_EQ(nearest("gm", only), "mg");
}

TEST(Nearest, PrefersTheFewestSlips) {
  EXPECT_EQ(nearest("mallic acid", known), "malic acid");
  EXPECT_EQ(nearest("latic acid", known), "lactic acid");
  EXPECT_EQ(nearest("mg", known), "mg");
  EXPECT_EQ(nearest("Mg", known), "Mg");
}

// 'CII' is one letter away from 'C I' and none from 'C II'.
TEST(Nearest, SpacesAndCaseComeFirst) {
  constexpr std::array<std::string_view, 4> zones{"C I", "C II", "C III a", "B"};
  EXPECT_EQ(nearest("CII", zones), "C II");
  EXPECT_EQ(nearest("ciiia", zones), "C III a");
  EXPECT_EQ(nearest("c i i", zones), "C II");
}

TEST(Nearest, IsSilentBetweenTwoThatAreAsNear) {
  constexpr std::array<std::string_view, 3> two{"malic acid", "mamic acid", "volume"};
  EXPECT_EQ(nearest("mapic acid", two), "");
  EXPECT_EQ(nearest("malic acid", two), "malic acid");
}

TEST(Nearest, KnowsWordsOfTheTrade) {
  constexpr std::array<std::string_view, 5> keys{"ethanol", "pink", "gal", "% vol", "potassium metabisulfite"};
  EXPECT_EQ(nearest("Alcohol", keys), "ethanol");
  EXPECT_EQ(nearest("rosé", keys), "pink");
  EXPECT_EQ(nearest("gallons", keys), "gal");
  EXPECT_EQ(nearest("Vol.-%", keys), "% vol");
  EXPECT_EQ(nearest("% abv", keys), "% vol");
  EXPECT_EQ(nearest("KMBS", keys), "potassium metabisulfite");
  EXPECT_EQ(nearest("rosé", known), "");  // only where ours is known
}

TEST(Nearest, KnowsAPartOfOne) {
  constexpr std::array<std::string_view, 4> inputs{"target molecular SO2", "target free SO2", "target pH", "pK1"};
  EXPECT_EQ(nearest("molecular SO2", inputs), "target molecular SO2");
  EXPECT_EQ(nearest("target", inputs), "");  // of three
  EXPECT_EQ(nearest("pH", inputs), "");      // too little to go by
}

// One letter is a unit of its own: M is no metre.
TEST(Nearest, KeepsTheCaseOfOneLetter) {
  constexpr std::array<std::string_view, 2> units{"m", "mol/L"};
  EXPECT_EQ(nearest("M", units), "mol/L");
}

TEST(Nearest, EverydayWordsAreInTheirPlainForm) {
  for (const auto& row : everyday_words()) {
    EXPECT_FALSE(row.word.empty());
    EXPECT_EQ(row.word.find(' '), std::string_view::npos) << row.word;
    EXPECT_NE(row.word, row.ours);
    std::size_t twins = 0;
    for (const auto& other : everyday_words()) twins += other.word == row.word && other.ours == row.ours ? 1 : 0;
    EXPECT_EQ(twins, 1U) << row.word;
  }
}

// Near in its letters is not near in its meaning.
TEST(Nearest, AcrossMeaningsTheDifferenceIsSaid) {
  constexpr std::array<std::string_view, 3> targets{"target molecular SO2", "target free SO2", "total SO2"};
  EXPECT_EQ(did_you_mean("target total SO2", targets),
            "there is 'target free SO2', which is another thing: 'free', not 'total'");
  constexpr std::array<std::string_view, 1> lactic{"lactic acid"};
  EXPECT_EQ(did_you_mean("malic acid", lactic),
            "there is 'lactic acid', which is another thing: 'lactic', not 'malic'");
  for (const auto* slip : {"target free S02", "target fre SO2", "Target Free SO2", "targetfree SO2", "free SO2"})
    EXPECT_EQ(did_you_mean(slip, targets), "the nearest known one is 'target free SO2'") << slip;
}

TEST(Nearest, IsSilentWhenNothingIsClose) {
  EXPECT_EQ(nearest("gravity", known), "");
  EXPECT_EQ(nearest("", std::span<const std::string_view>()), "");
  EXPECT_EQ(nearest(std::string(5000, 'a'), known), "");
}

}  // namespace nearest_test
}  // namespace vatwright
