// From pH and titratable acidity to a composition that gives them back.
#include "plugins/chemistry/inference.hpp"

#include "tests/plugins/wines.hpp"
#include "units/error.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <random>
#include <string>

namespace vatwright::chemistry {
namespace inference_test {

Measured measured(double ph, double ta, Composition known = {}) {
  Measured m{ph * ph_unit, ta * milliequivalent_per_litre};
  m.known = known;
  m.unmeasured[index(Acid::tartaric)] = 0.5;
  m.unmeasured[index(Acid::malic)] = 0.5;
  return m;
}

TEST(Inference, GivesTheMeasurementBack) {
  std::mt19937_64 draw(7);
  const auto between = [&](double low, double high) {
    return low + (high - low) * static_cast<double>(draw() >> 11) / 9007199254740992.0;
  };
  for (int i = 0; i < 300; ++i) {
    const Medium medium(between(0, 18) * percent_vol, celsius(20));
    Composition known = of({{Acid::malic, between(0, 1)}, {Acid::acetic, between(0, 0.6)}}, between(400, 800));
    known[Acid::carbonic] = between(0, 30) * millimole_per_litre;
    Measured m = measured(between(3.0, 3.9), between(60, 130), known);
    m.endpoint = (i % 2 == 0 ? 7.0 : 8.2) * ph_unit;
    const Inferred found = infer(m, medium);
    EXPECT_NEAR(ph_of(found.composition, medium), m.ph.value(), 1e-8);
    EXPECT_NEAR(ta_of(found.composition, m.endpoint, medium), m.titratable.value(), 1e-8);
    EXPECT_EQ(found.composition[Ion::potassium], known[Ion::potassium]);
    EXPECT_GE(found.unmeasured, AmountConcentration{});
  }
}

// What is taken away is found again.
TEST(Inference, FindsWhatWasHidden) {
  const Composition whole = of({{Acid::tartaric, 2.5}, {Acid::malic, 1.5}, {Acid::lactic, 0.4}}, 900);
  Measured m{equilibrium(whole, wine).ph, titratable_acidity(whole, oiv_endpoint, wine)};
  m.known = whole;
  m.known[Acid::malic] = {};
  m.unmeasured[index(Acid::malic)] = 2;  // shares need not sum to one
  const Inferred found = infer(m, wine);
  EXPECT_NEAR(found.composition[Acid::malic].value(), whole[Acid::malic].value(), 1e-7);
  EXPECT_NEAR(found.rest.value(), 0, 1e-7);
}

// Everything measured, and nothing left over: that is no contradiction.
TEST(Inference, TakesACompleteAnalysis) {
  for (const double tartaric : {1.5, 2.5, 4.0}) {
    const Composition whole = of({{Acid::tartaric, tartaric}, {Acid::malic, 1.5}}, 900);
    Measured m{equilibrium(whole, wine).ph, titratable_acidity(whole, oiv_endpoint, wine)};
    m.known = whole;
    m.unmeasured[index(Acid::succinic)] = 1;
    const Inferred found = infer(m, wine);
    EXPECT_NEAR(found.unmeasured.value(), 0, 1e-6);
    EXPECT_NEAR(found.rest.value(), 0, 1e-6);
  }
}

// Measured chloride explains a negative difference of the strong ions.
TEST(Inference, TakesAMineralAcidThatWasMeasured) {
  Composition sour = of({{Acid::malic, 3}});
  sour[Ion::chloride] = 10.0 * millimole_per_litre;
  Measured m{equilibrium(sour, wine).ph, titratable_acidity(sour, oiv_endpoint, wine)};
  m.unmeasured[index(Acid::malic)] = 1;
  EXPECT_THROW(infer(m, wine), InputError);
  m.known[Ion::chloride] = 12.0 * millimole_per_litre;
  // Two more of chloride ask for two of cations, but for what they do to the activities.
  EXPECT_NEAR(infer(m, wine).rest.value(), 2, 0.2);
}

// Acids that titrate to a little more than the titration found are one analysis with it: all are scaled, and pH and
// acidity come out as measured. The reproducibility limit of the titration of a red wine is 5.1 meq/L
// (OIV-MA-AS313-01, from memory); beyond it, and 4 % of a sour lot, they cannot be together.
TEST(Inference, ScalesTheAcidsToTheTitration) {
  const Composition whole = of({{Acid::tartaric, 2.5}, {Acid::malic, 1.5}}, 900);
  const Ph ph = equilibrium(whole, wine).ph;
  const auto short_by = [&](double milliequivalents) {
    Measured m{ph, titratable_acidity(whole, oiv_endpoint, wine) - milliequivalents * milliequivalent_per_litre};
    m.known = whole;
    m.unmeasured[index(Acid::succinic)] = 1;
    return m;
  };
  for (const double gap : {0.1, 2.0, 5.0}) {
    const Measured m = short_by(gap);
    const Inferred found = infer(m, wine);
    EXPECT_NEAR(ph_of(found.composition, wine), ph.value(), 1e-8) << gap;
    EXPECT_NEAR(ta_of(found.composition, m.endpoint, wine), m.titratable.value(), 1e-7) << gap;
    EXPECT_EQ(found.unmeasured.value(), 0) << gap;
    EXPECT_LT(found.kept.value(), 1) << gap;
    for (const auto acid : {Acid::tartaric, Acid::malic})
      EXPECT_NEAR(found.composition[acid].value(), found.kept.value() * whole[acid].value(), 1e-9) << gap;
    EXPECT_EQ(found.composition[Ion::potassium], whole[Ion::potassium]) << gap;
  }
  EXPECT_EQ(infer(short_by(-1), wine).kept.value(), 1);
  Measured far = short_by(5.3);
  EXPECT_THROW(infer(far, wine), InputError);
  far.vetted = true;
  EXPECT_NEAR(ta_of(infer(far, wine).composition, far.endpoint, wine), far.titratable.value(), 1e-7);
  // 4 % of 160 meq/L are 6.4.
  const Composition sour = of({{Acid::tartaric, 7}, {Acid::malic, 7}}, 900);
  Measured m{equilibrium(sour, wine).ph, titratable_acidity(sour, oiv_endpoint, wine)};
  m.known = sour;
  m.unmeasured[index(Acid::succinic)] = 1;
  ASSERT_GT(m.titratable.value(), 160);
  m.titratable -= 5.9 * milliequivalent_per_litre;
  EXPECT_LT(infer(m, wine).kept.value(), 1);
  m.titratable -= 2.0 * milliequivalent_per_litre;
  EXPECT_THROW(infer(m, wine), InputError);
}

std::string refusal(const Measured& m) {
  try {
    infer(m, wine);
  } catch (const InputError& error) {
    return error.what();
  }
  return {};
}

TEST(Inference, NamesWhatCannotBeTogether) {
  const auto says = [](const Measured& m, const std::string& start, const std::string& detail) {
    const std::string text = refusal(m);
    EXPECT_TRUE(text.starts_with(start)) << text;
    EXPECT_NE(text.find(detail), std::string::npos) << text;
  };
  says(measured(3.4, 60, of({{Acid::tartaric, 6}, {Acid::malic, 3}})), "acidity and acids cannot be together",
       "tartaric acid 6.00 g/L");
  says(measured(2.0, 5), "pH and titratable acidity cannot be together: water", "2.00");
  says(measured(2.0, 60), "pH and acidity cannot be together", "2.00");
  says(measured(3.3, 60, of({}, 4000)), "pH, acidity and cations cannot be together", "potassium 4.00 g/L");
  says(measured(7.5, 60), "pH and end point cannot be together", "7.50");
  says(measured(3.3, -1), "pH and titratable acidity cannot be together", "-1.0 meq/L");
  Measured nothing = measured(3.3, 60);
  nothing.unmeasured = {};
  says(nothing, "nothing says", "unmeasured");
  Measured gas = measured(3.3, 60);
  gas.unmeasured[index(Acid::carbonic)] = 1;
  says(gas, "carbonic acid is not counted", "");
  Measured spent = measured(6.5, 60);
  spent.unmeasured = {};
  spent.unmeasured[index(Acid::acetic)] = 1;
  EXPECT_NE(refusal(spent), "");
  EXPECT_NE(refusal(measured(std::nan(""), 60)), "");
  EXPECT_NE(refusal(measured(3.3, std::nan(""))), "");
}

}  // namespace inference_test
}  // namespace vatwright::chemistry
