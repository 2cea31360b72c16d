// The row of 27 CFR 24.182 that goes by total solids: of the finished wine, so that a must's sugar does not count.
#include "tests/plugins/run.hpp"

namespace vatwright::test {
namespace dissolved_solids_test {

const Check& fixed_acidity(const std::string& lot) {
  static StepSheet step;
  step = run_step(lot + ", volume: 1000 L, pH: 3.6, titratable acidity: 7 g/L as tartaric acid",
                  "acid.addition: {target titratable acidity: 8 g/L as tartaric acid}", "US");
  return *check(step, "fixed acidity after acidification");
}

double most(const std::string& lot) { return number(*fixed_acidity(lot).limit); }

// 27 CFR 24.182(b): acid may not bring the finished wine above 9 g/L of fixed acidity; 11 g/L where the wine has 8 g
// or more of total solids in 100 mL.
TEST(DissolvedSolids, TheSugarOfAMustDoesNotCount) {
  for (const char* must :
       {", soluble solids: 22 °Brix", ", sugar: 210 g/L", ", soluble solids: 7 °Brix, sugar: 50 g/L"})
    EXPECT_NEAR(most(std::string("stage: must") + must), 9, 1e-9) << must;
  EXPECT_FALSE(has(fixed_acidity("stage: must").name, "not stated"));
}

TEST(DissolvedSolids, OfAWineByItsSugar) {
  EXPECT_NEAR(most("stage: wine, ethanol: 12 % vol, sugar: 3 g/L"), 9, 1e-9);
  EXPECT_NEAR(most("stage: wine, ethanol: 12 % vol, sugar: 79.9 g/L"), 9, 1e-9);
  EXPECT_NEAR(most("stage: wine, ethanol: 12 % vol, sugar: 80 g/L"), 11, 1e-9);
  EXPECT_NEAR(most("stage: wine, ethanol: 12 % vol, sugar: 120 g/L"), 11, 1e-9);
}

TEST(DissolvedSolids, UnstatedTheStrictestRowIsTakenAndItSaysSo) {
  EXPECT_NEAR(most("stage: wine, ethanol: 12 % vol"), 9, 1e-9);
  EXPECT_TRUE(has(fixed_acidity("stage: wine, ethanol: 12 % vol").name, "not stated: sugar"));
}

}  // namespace dissolved_solids_test
}  // namespace vatwright::test
