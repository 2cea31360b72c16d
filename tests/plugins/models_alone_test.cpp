// Without a ± at any reading the models' own stands in words, and at no figure.
#include "tests/plugins/run.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <regex>

namespace vatwright::test {
namespace models_alone_test {

constexpr char wine[] =
    "volume: 48 hL, pH: 3.42, titratable acidity: 5.1 g/L as tartaric acid, ethanol: 12.6 % vol, stage: wine";
constexpr char with[] =
    "volume: 48 hL, pH: 3.42 ± 1e-9, titratable acidity: 5.1 g/L as tartaric acid, ethanol: 12.6 % vol, stage: wine";

TEST(ModelsAlone, StandInWordsAndAreTheSame) {
  const auto alone = run_step(wine, "acid.addition: {target pH: 3.30}");
  const auto beside = run_step(with, "acid.addition: {target pH: 3.30}");
  EXPECT_TRUE(alone.result_spreads.empty());
  std::smatch found;
  const auto& notes = alone.outcome.notes;
  const auto line =
      std::find_if(notes.begin(), notes.end(), [](const auto& n) { return has(n, "by the models alone"); });
  ASSERT_NE(line, notes.end());
  ASSERT_TRUE(std::regex_search(*line, found, std::regex("dose ± ([0-9.]+)"))) << *line;
  // What a ± of nearly nothing at one reading lets through, to the last figure.
  EXPECT_NEAR(std::stod(found[1]), beside.result_spreads.at(0).standard, 0.001);
  EXPECT_TRUE(noted(alone, "would help most"));
  EXPECT_FALSE(noted(beside, "by the models alone"));
}

}  // namespace models_alone_test
}  // namespace vatwright::test
