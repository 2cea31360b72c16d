// A blend against the rule sets: composition and label.
#include "tests/plugins/blend.hpp"

#include <gtest/gtest.h>

namespace {

using namespace vatwright;
using namespace vatwright::test;

std::string lots(const std::string& a, const std::string& b) { return "{A: {" + a + "}, B: {" + b + "}}"; }

const std::string still_white = "stage: wine, class: still, colour: white";
const std::string still_red = "stage: wine, class: still, colour: red";

// Regulation (EC) No 606/2009, Article 8(1), quoted in a secondary source: white and red without PDO or
// PGI give no pink still wine, but may for a sparkling one.
TEST(BlendRules, RedAndWhiteIntoPink) {
  const auto holds = [](const std::string& step, const std::string& rules) {
    const auto sheet = blend(lots(still_white, still_red), step, rules);
    const auto* found = check(sheet.steps[0], "red and white joined into pink");
    return found == nullptr ? -1 : static_cast<int>(found->holds);
  };
  EXPECT_EQ(holds("{lots: {A: 95 %, B: 5 %}, into: C, colour: pink}", "EU"), 0);
  EXPECT_EQ(holds("{lots: {A: 95 %, B: 5 %}, into: C}", "EU"), 0);  // not said: the strictest reading
  EXPECT_EQ(holds("{lots: {A: 5 %, B: 95 %}, into: C, colour: red}", "EU"), -1);
  EXPECT_EQ(holds("{lots: {A: 95 %, B: 5 %}, into: C, colour: pink, class: sparkling}", "EU"), -1);
  EXPECT_EQ(holds("{lots: {A: 95 %, B: 5 %}, into: C, colour: pink}", "US"), -1);
}

struct House {
  const char *a, *b, *shares;
  bool members, together, each;
};

// The invented house rule: two principal varieties that make 70 %, none above 90 %.
TEST(BlendRules, TwoPrincipalVarieties) {
  const House cases[] = {{"Sorrel", "Teasel", "{A: 90 %, B: 10 %}", true, true, true},
                         {"Sorrel", "Teasel", "{A: 91 %, B: 9 %}", true, true, false},
                         {"Sorrel", "Bramble", "{A: 70 %, B: 30 %}", false, true, true},
                         {"Sorrel", "Bramble", "{A: 69 %, B: 31 %}", false, false, true}};
  for (const auto& c : cases) {
    SCOPED_TRACE(std::string(c.b) + c.shares);
    const auto sheet =
        blend(lots("colour: pink, varieties: " + std::string(c.a), "colour: pink, varieties: " + std::string(c.b)),
              "{lots: " + std::string(c.shares) + ", into: C}", "house example");
    const auto& step = sheet.steps[0];
    EXPECT_EQ(check(step, "two principal varieties, number")->holds, c.members);
    EXPECT_EQ(check(step, "two principal varieties, together")->holds, c.together);
    EXPECT_EQ(check(step, "two principal varieties, largest")->holds, c.each);
  }
}

TEST(BlendRules, WhatCannotBeCheckedIsNoted) {
  const auto sheet = blend(lots("colour: pink, varieties: Sorrel", "colour: pink"),
                           "{lots: {A: 50 %, B: 50 %}, into: C}", "house example");
  EXPECT_EQ(check(sheet.steps[0], "two principal"), nullptr);
  EXPECT_TRUE(noted(sheet.steps[0], "'two principal varieties' of house example was not checked"));
}

// To 1000 L of the named variety or vintage at most 176.470588 L of another at 85 %, 333.333333 L at
// 75 % (by hand: 1000 (1 - s) / s). EU: Regulation 2019/33, Articles 49 and 50 (from memory); US: 27 CFR
// 4.23(b), 75 % of the variety, and 4.27(a), 95 % of the year with a viticultural area.
// Outside check of blend.mix: 4 values within 3e-5, from either side, derived.
// Source: (EU) 2019/33, Articles 49 and 50, and 27 CFR 4.23 and 4.27.
TEST(BlendRules, TheShareThatALabelAsksFor) {
  struct Case {
    const char *rules, *foreign, *label;
    bool holds;
  };
  const Case cases[] = {
      {"EU", "176.470", "label variety: Sorrel", true}, {"EU", "176.475", "label variety: Sorrel", false},
      {"EU", "176.470", "label vintage: 2026", true},   {"EU", "176.475", "label vintage: 2026", false},
      {"US", "333.333", "label variety: Sorrel", true}, {"US", "333.340", "label variety: Sorrel", false},
      {"US", "52.6315", "label vintage: 2026", true},   {"US", "52.6320", "label vintage: 2026", false}};
  for (const auto& c : cases) {
    SCOPED_TRACE(std::string(c.rules) + " " + c.foreign + " " + c.label);
    const auto sheet = blend(
        lots("volume: 1000 L, varieties: Sorrel, vintage: 2026", "volume: 900 L, varieties: Teasel, vintage: 2025"),
        "{lots: {A: 1000 L, B: " + std::string(c.foreign) + " L}, into: C, " + c.label + "}", c.rules);
    const auto* found = named(sheet.steps[0].outcome.checks,
                              has(c.label, "variety") ? "variety share for a label" : "vintage share for a label");
    ASSERT_NE(found, nullptr);
    EXPECT_EQ(found->holds, c.holds);
  }
}

TEST(BlendRules, ALabelThatTheBlendHasNot) {
  const auto said = blend_refusal(lots("varieties: Sorrel", "varieties: Teasel"),
                                  "{lots: {A: 50 %, B: 50 %}, into: C, label variety: Sorel}", "EU");
  EXPECT_TRUE(has(said, "the blend has no 'Sorel'")) << said;
  EXPECT_TRUE(has(said, "'Sorrel'")) << said;
  EXPECT_TRUE(has(blend_refusal(lots("varieties: Sorrel", "sugar: 1 g/L"),
                                "{lots: {A: 50 %, B: 50 %}, into: C, label variety: Sorrel}", "EU"),
                  "varieties is not known of every lot"));
}

}  // namespace
