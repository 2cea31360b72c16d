// The row of 27 CFR 24.182 that goes by dissolved solids: what of a lot says how much there is.
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

// 27 CFR 24.182 (from memory): 9 g/L of fixed acidity, 11 g/L with more than 8 g/100 mL of dissolved solids.
TEST(DissolvedSolids, OfAMustBySugarOrBySolubleSolids) {
  EXPECT_NEAR(most("stage: must, soluble solids: 22 °Brix"), 11, 1e-9);
  EXPECT_NEAR(most("stage: must, sugar: 210 g/L"), 11, 1e-9);
  EXPECT_NEAR(most("stage: must, soluble solids: 7 °Brix, sugar: 50 g/L"), 9, 1e-9);
}

TEST(DissolvedSolids, OfAWineByItsSugar) {
  EXPECT_NEAR(most("stage: wine, ethanol: 12 % vol, sugar: 3 g/L"), 9, 1e-9);
  EXPECT_NEAR(most("stage: wine, ethanol: 12 % vol, sugar: 120 g/L"), 11, 1e-9);
}

TEST(DissolvedSolids, UnstatedTheStrictestRowIsTakenAndItSaysSo) {
  EXPECT_NEAR(most("stage: must"), 9, 1e-9);
  EXPECT_TRUE(has(fixed_acidity("stage: must").name, "not stated: sugar, soluble solids"));
  EXPECT_NEAR(most("stage: wine, ethanol: 12 % vol"), 9, 1e-9);
  EXPECT_TRUE(has(fixed_acidity("stage: wine, ethanol: 12 % vol").name, "not stated: sugar"));
}

}  // namespace dissolved_solids_test
}  // namespace vatwright::test
