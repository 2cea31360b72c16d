// A blend against the rule sets: composition and label.
#include "host/sheet/to_do.hpp"
#include "tests/plugins/blend.hpp"

#include <gtest/gtest.h>

namespace blend_rules_test {

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

// A blend cannot be taken apart again: what a rule forbids is not ordered.
TEST(BlendRules, WhatIsForbiddenIsNotOrdered) {
  const auto work = [](const std::string& rules) {
    const auto sheet = blend(lots(still_white + ", volume: 20 hL", still_red + ", volume: 20 hL"),
                             "{lots: {A: 19 hL, B: 1 hL}, into: C, colour: pink}", rules);
    const auto& step = sheet.steps[0];
    return step.outcome.work.empty() ? idle_words(step) : step.outcome.work[0];
  };
  EXPECT_TRUE(work("EU").starts_with("do not join yet: a check")) << work("EU");
  EXPECT_TRUE(work("US").starts_with("pump 19.00 hL of lot A")) << work("US");
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
    EXPECT_EQ(check(step, "two principal varieties, how many of them")->holds, c.members);
    EXPECT_EQ(check(step, "two principal varieties, together")->holds, c.together);
    EXPECT_EQ(check(step, "two principal varieties, largest share")->holds, c.each);
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
// 4.23(b), 75 % of the variety, and 4.27(a), 95 % of the year with a viticultural area, 85 % with another
// origin.
// Outside check of blend.mix: 5 values within 3e-5, from either side, derived.
// Source: (EU) 2019/33, Articles 49 and 50, and 27 CFR 4.23 and 4.27.
TEST(BlendRules, TheShareThatALabelAsksFor) {
  struct Case {
    const char *rules, *foreign, *label, *limit;
    bool holds;
  };
  const char *variety = "variety share for a label", *year = "vintage share for a label",
             *area = "vintage share for a viticultural area";
  const Case cases[] = {{"EU", "176.4700", "label variety: Sorrel", variety, true},
                        {"EU", "176.4750", "label variety: Sorrel", variety, false},
                        {"EU", "176.4700", "label vintage: 2026", year, true},
                        {"EU", "176.4750", "label vintage: 2026", year, false},
                        {"US", "333.3330", "label variety: Sorrel", variety, true},
                        {"US", "333.3400", "label variety: Sorrel", variety, false},
                        {"US", "52.6315", "label vintage: 2026", area, true},
                        {"US", "52.6320", "label vintage: 2026", area, false},
                        {"US", "176.4700", "label vintage: 2026, label origin: other", year, true},
                        {"US", "176.4750", "label vintage: 2026, label origin: other", year, false}};
  for (const auto& c : cases) {
    SCOPED_TRACE(std::string(c.rules) + " " + c.foreign + " " + c.label);
    const auto sheet = blend(
        lots("volume: 1000 L, varieties: Sorrel, vintage: 2026", "volume: 900 L, varieties: Teasel, vintage: 2025"),
        "{lots: {A: 1000 L, B: " + std::string(c.foreign) + " L}, into: C, " + c.label + "}", c.rules);
    const auto* found = named(sheet.steps[0].outcome.checks, c.limit);
    ASSERT_NE(found, nullptr);
    EXPECT_EQ(found->holds, c.holds);
  }
}

// 27 CFR 4.27(a): 95 % of the year beside a viticultural area, 85 % beside any other origin. Where the step
// does not say which, the check that fails names both.
TEST(BlendRules, AnotherOriginThanAViticulturalAreaTakesLess) {
  const std::string nine_tenths = "{lots: {A: 90 %, B: 10 %}, into: C, label vintage: 2026";
  const auto two = lots("vintage: 2026", "vintage: 2025");
  const auto unsaid = blend(two, nine_tenths + "}", "US").steps[0];
  ASSERT_NE(check(unsaid, "vintage share for a label"), nullptr);
  EXPECT_TRUE(check(unsaid, "vintage share for a label")->holds);
  const auto* area = check(unsaid, "vintage share for a viticultural area");
  ASSERT_NE(area, nullptr);
  EXPECT_FALSE(area->holds);
  EXPECT_TRUE(has(area->remedy, "takes 85 % of the year (27 CFR 4.27(a)(2)")) << area->remedy;
  EXPECT_TRUE(has(area->remedy, "'label origin: other'")) << area->remedy;
  const auto other = blend(two, nine_tenths + ", label origin: other}", "US").steps[0];
  EXPECT_EQ(check(other, "vintage share for a viticultural area"), nullptr);
  EXPECT_TRUE(check(other, "vintage share for a label")->holds);
}

// --- the analysis of the blend

// Half and half: 310 mg/L of sulfur dioxide, 1.45 g/L of acetic acid and 100 mg/L of sodium are past what
// the rule sets allow (EU 2019/934: 200 mg/L white, 18 meq/L; OIV-MA-C1-01: sodium 80 mg/L; 27 CFR 4.21:
// 1.2 g/L), and the lots' mean is arithmetic.
TEST(BlendRules, TheAnalysisIsHeldToTheLimits) {
  const std::string white = still_white + ", sugar: 1 g/L, sodium: 100 mg/L, ";
  const auto two = lots(white + "total SO2: 330 mg/L, volatile acidity: 1.6 g/L as acetic acid",
                        white + "total SO2: 290 mg/L, volatile acidity: 1.3 g/L as acetic acid");
  const auto step = blend(two, "{lots: {A: 50 %, B: 50 %}, into: C}", "EU, OIV, US").steps[0];
  struct Case {
    const char* name;
    double value, limit;
  };
  for (const auto& c : {Case{"total SO2 limit, EU", 310, 200}, Case{"volatile acidity limit, EU", 1.45, 18 * 0.060052},
                        Case{"sodium limit, OIV", 100, 80}}) {
    const auto* found = check(step, c.name);
    ASSERT_NE(found, nullptr) << c.name;
    EXPECT_FALSE(found->holds) << c.name;
    EXPECT_NEAR(number(*found->value), c.value, 1e-9) << c.name;
    EXPECT_NEAR(number(*found->limit), c.limit, 1e-4) << c.name;
    EXPECT_TRUE(has(found->remedy, "take less of the lots that have most of it")) << c.name;
  }
}

// (EU) 2019/934, Annex I, Part B: white and pink still wine below 5 g/L of sugar 200 mg/L, red 150 mg/L.
TEST(BlendRules, WhiteAndPinkAreNotHeldToTheLimitOfRed) {
  const std::string more = ", sugar: 1 g/L, total SO2: 160 mg/L";
  const auto limit = [&](const std::string& a, const std::string& b) {
    const auto sheet =
        blend(lots("stage: wine, class: still, colour: " + a + more, "stage: wine, class: still, colour: " + b + more),
              "{lots: {A: 50 %, B: 50 %}, into: C}", "EU");
    const auto* found = check(sheet.steps[0], "total SO2 limit");
    return found == nullptr ? 0 : number(*found->limit);
  };
  EXPECT_NEAR(limit("white", "pink"), 200, 1e-9);
  EXPECT_NEAR(limit("pink", "red"), 150, 1e-9);
  EXPECT_NEAR(limit("white", "red"), 150, 1e-9);
}

// The invented house rule allows pink 90 mg/L: the stricter figure of the colours that are there holds.
TEST(BlendRules, TheStricterOfTheColoursThatAreThere) {
  const std::string more = ", stage: wine, class: still, sugar: 1 g/L, total SO2: 100 mg/L";
  const auto two = lots("colour: white" + more, "colour: pink" + more);
  const auto unsaid = blend(two, "{lots: {A: 50 %, B: 50 %}, into: C}", "EU, house example");
  EXPECT_FALSE(check(unsaid.steps[0], "total SO2 limit, house example")->holds);
  EXPECT_EQ(of_blend(unsaid, "colour")->word, "pink");
  EXPECT_TRUE(noted(unsaid.steps[0], "the blend is taken for pink"));
  const auto white = blend(two, "{lots: {A: 50 %, B: 50 %}, into: C, colour: white}", "EU, house example");
  EXPECT_TRUE(check(white.steps[0], "total SO2 limit, EU")->holds);
  EXPECT_FALSE(noted(white.steps[0], "the blend is taken for pink"));
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

}  // namespace blend_rules_test
