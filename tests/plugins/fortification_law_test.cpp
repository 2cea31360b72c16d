// What the rule sets say of spirit, and of the sugar of a US must.
#include "tests/plugins/run.hpp"

#include <fmt/format.h>

namespace vatwright::test {
namespace fortification_law_test {

StepSheet fortify(const std::string& wine_class, double target, const std::string& rules) {
  return run_step("volume: 540 L, ethanol: 12 % vol, stage: wine, class: " + wine_class,
                  fmt::format("sugar.fortification: {{spirit: 77 % vol, target ethanol: {:.3f} % vol}}", target),
                  rules);
}

struct Case {
  const char *rules, *wine_class;
  double target;
  bool poured;
};

// 26 USC 5382(b)(2): 24 % vol. OIV Code I.4.3 and II.3.5.1: liqueur wine 15 to 22 % vol, no other. EU the same, from
// memory.
TEST(FortificationLaw, JustInsideAndJustOutside) {
  const Case cases[] = {
      {"US", "still", 23.9, true},      {"US", "still", 24.01, false},   {"OIV", "liqueur", 22, true},
      {"OIV", "liqueur", 22.01, false}, {"OIV", "liqueur", 15, true},    {"OIV", "liqueur", 14.99, false},
      {"OIV", "still", 16, false},      {"OIV", "sparkling", 16, false}, {"EU", "liqueur", 22, true},
      {"EU", "liqueur", 22.01, false},  {"EU", "liqueur", 14.99, false}, {"EU", "still", 16, false}};
  for (const auto& c : cases) {
    SCOPED_TRACE(fmt::format("{}, {}, {}", c.rules, c.wine_class, c.target));
    const auto step = fortify(c.wine_class, c.target, c.rules);
    EXPECT_EQ(!step.outcome.additions.empty(), c.poured);
    EXPECT_EQ(step.outcome.holds(), c.poured);
    EXPECT_EQ(step.outcome.changes.empty(), !c.poured);
    if (!c.poured) {
      EXPECT_EQ(result(step, "spirit volume"), 0);
    }
  }
}

TEST(FortificationLaw, AnUnsaidClassIsNoPermission) {
  const auto step = run_step("volume: 540 L, ethanol: 12 % vol, stage: wine",
                             "sugar.fortification: {spirit: 77 % vol, target ethanol: 17 % vol}", "EU");
  EXPECT_TRUE(step.outcome.additions.empty());
  ASSERT_NE(check(step, "strength after fortification"), nullptr);
  EXPECT_TRUE(has(check(step, "strength after fortification")->remedy, "class: liqueur"));
}

// 27 CFR 24.177: 25 °Brix; what is named as allowed is allowed.
TEST(FortificationLaw, SugarOfAUsMust) {
  const auto enrich = [](double target) {
    return run_step("volume: 20 hL, stage: must, soluble solids: 22 °Brix, temperature: 20 °C",
                    fmt::format("sugar.enrichment: {{target potential alcohol: {:.3f} % vol}}", target), "US");
  };
  const auto over = enrich(16.5);
  EXPECT_TRUE(over.outcome.additions.empty());
  const auto* law = check(over, "soluble solids after enrichment limit, US");
  ASSERT_NE(law, nullptr);
  EXPECT_FALSE(law->holds);
  EXPECT_TRUE(has(law->remedy, "nothing was dosed. The limits allow")) << law->remedy;
  // Below 25 °Brix by 0.1: between the strength of 22 and of 25 °Brix.
  double low = 12.5, high = 16.5;
  for (int i = 0; i < 20; ++i) {
    const double middle = (low + high) / 2;
    (enrich(middle).outcome.additions.empty() ? high : low) = middle;
  }
  const auto most = enrich(low);
  EXPECT_NEAR(number(*check(most, "soluble solids after enrichment limit, US")->value), 25, 0.01);
  EXPECT_TRUE(most.outcome.holds());
}

}  // namespace fortification_law_test
}  // namespace vatwright::test
