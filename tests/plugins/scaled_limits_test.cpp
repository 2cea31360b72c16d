// Every row of every rule set that bounds what blend.scale weighs, read with yaml-cpp alone and run with a trial just
// inside and one just outside.
#include "tests/plugins/run.hpp"

#include <fmt/format.h>
#include <yaml-cpp/yaml.h>

#include <map>

namespace vatwright::test {
namespace scaled_limits_test {

// Topic -> what is tried, and the share of it that the topic counts.
struct Tried {
  const char* substance;
  double share;
};
// Sorbic acid is 74.63 % of its potassium salt (112.13 of 150.22 g/mol).
const std::map<std::string, Tried> tried{{"PVPP", {"PVPP", 1}},
                                         {"activated carbon", {"activated carbon", 1}},
                                         {"chitosan", {"chitosan", 1}},
                                         {"yeast hulls", {"yeast hulls", 1}},
                                         {"lysozyme", {"lysozyme", 1}},
                                         {"egg albumin", {"egg albumin", 1}},
                                         {"ascorbic acid", {"ascorbic acid", 1}},
                                         {"fumaric acid", {"fumaric acid", 1}},
                                         {"sorbic acid", {"potassium sorbate", 112.13 / 150.22}},
                                         {"copper sulfate", {"copper sulfate pentahydrate", 1}}};

// A lot that meets the row: what it says under `when`, the first word of a list.
std::string lot_for(const YAML::Node& when) {
  std::map<std::string, std::string> said{{"stage", "wine"}, {"class", "still"}, {"colour", "white"}};
  for (const auto& condition : when)
    said[condition.first.as<std::string>()] =
        condition.second.IsSequence() ? condition.second[0].as<std::string>() : condition.second.as<std::string>();
  std::string lot = "volume: 100 hL";
  for (const auto& [key, word] : said) lot += ", " + key + ": " + word;
  return lot;
}

StepSheet trial(const std::string& lot, const Tried& what, double grams_per_litre, const std::string& rules) {
  // 4 mL of the stock in 100 mL of wine: a 25th of its strength.
  return run_step(lot,
                  fmt::format("blend.scale: {{substance: {}, stock: {:.9f} g/L, aliquot: 4 mL, sample: 100 mL, slurry: "
                              "400 g/L}}",
                              what.substance, grams_per_litre * 25),
                  rules);
}

TEST(ScaledLimits, EachRowJustInsideAndJustOutside) {
  int rows = 0;
  for (const std::string rules : {"EU", "EU organic", "OIV", "US"}) {
    const YAML::Node file = YAML::LoadFile(VATWRIGHT_SOURCE_DIR "/host/rules/" + rules + ".yaml");
    for (const auto& [topic, what] : tried)
      for (const auto& row : file[topic]) {
        const double most = parse(row["at most"].as<std::string>()).value / what.share;  // kg/m³ = g/L
        const std::string lot = lot_for(row["when"]);
        SCOPED_TRACE(rules + ", " + topic + ", " + lot);
        ++rows;
        // Copper of the salt meets a limit of its own first, and so does the water of much slurry.
        if (most > 0 && topic != "copper sulfate" && most < 3) {
          EXPECT_EQ(trial(lot, what, most * 0.999, rules).outcome.additions.size(), 1U);
        }
        const auto outside = trial(lot, what, most > 0 ? most * 1.001 : 0.01, rules);
        EXPECT_TRUE(outside.outcome.additions.empty());
        const auto* law = check(outside, topic + " limit");
        ASSERT_NE(law, nullptr);
        EXPECT_FALSE(law->holds);
      }
  }
  EXPECT_GE(rows, 25);
}

// Gum arabic by cold.treatment, in each set that has it.
TEST(ScaledLimits, GumArabic) {
  for (const std::string rules : {"EU", "OIV", "US"}) {
    const YAML::Node file = YAML::LoadFile(VATWRIGHT_SOURCE_DIR "/host/rules/" + rules + ".yaml");
    const double most = parse(file["gum arabic"][0]["at most"].as<std::string>()).value;
    const auto at = [&](double dose) {
      return run_step(
          "volume: 100 hL, stage: wine",
          fmt::format("cold.treatment: {{substance: gum arabic, strength: 300 g/L, wanted dose: {:.9f} g/L}}", dose),
          rules);
    };
    EXPECT_EQ(at(most * 0.999).outcome.additions.size(), 1U) << rules;
    EXPECT_TRUE(at(most * 1.001).outcome.additions.empty()) << rules;
  }
}

}  // namespace scaled_limits_test
}  // namespace vatwright::test
