// 'as tartaric acid': a mass read as acid equivalents, or as nitrogen.
// Masses of one mole by hand, from the abridged weights H 1.008, C 12.011, N 14.007, O 15.999, S 32.06, Ca 40.078.
#include "units/basis.hpp"

#include "units/constants.hpp"
#include "units/parse.hpp"

#include <gtest/gtest.h>

#include <string>

namespace vatwright {
namespace basis_test {

TEST(Basis, EquivalentsInAGram) {
  const std::pair<const char*, double> meq_in_a_gram[] = {
      {"tartaric acid", 2000 / 150.086}, {"sulfuric acid", 2000 / 98.072},      {"malic acid", 2000 / 134.087},
      {"lactic acid", 1000 / 90.078},    {"citric acid", 3000 / 192.123},       {"succinic acid", 2000 / 118.088},
      {"acetic acid", 1000 / 60.052},    {"calcium carbonate", 2000 / 100.086},
  };
  for (const auto& [name, meq] : meq_in_a_gram) {
    const auto m = parse("1 g/L as " + std::string(name));
    EXPECT_EQ(m.dimension, dimension_of<Acidity>()) << name;
    EXPECT_NEAR(m.value, meq, 1e-9) << name;  // meq/L is the coherent unit
  }
}

TEST(Basis, OneAcidityInThreeWords) {
  const double acidity = parse("1 g/L as tartaric acid").value;
  EXPECT_NEAR(acidity, 13.326, 0.0005);
  EXPECT_NEAR(parse("0.6534 g/L as sulfuric acid").value, acidity, 0.001);
  EXPECT_NEAR(parse("13.326 meq/L").value, acidity, 0.0005);
}

TEST(Basis, NitrogenCountsTheNitrogenAtoms) {
  const auto n = parse("100 mg/L as nitrogen");
  EXPECT_DOUBLE_EQ(n.value, 0.1);
  EXPECT_EQ(n.counted, "nitrogen");
  EXPECT_EQ(n.dimension, dimension_of<MassConcentration>());
  EXPECT_NEAR(parse("100 mg/L as ammonium").value, 0.1 * 14.007 / 18.039, 1e-9);
  EXPECT_NEAR(parse("100 mg/L as ammonia").value, 0.1 * 14.007 / 17.031, 1e-9);
}

TEST(Basis, UncertaintyGoesThroughTheSameFactor) {
  const auto m = parse("5.1 ± 0.3 g/L as tartaric acid");
  EXPECT_NEAR(m.uncertainty / m.value, 0.3 / 5.1, 1e-12);
}

TEST(Basis, WorksOnAnyMass) {
  EXPECT_EQ(parse("2 g as tartaric acid").dimension, dimension_of<Equivalents>());
  EXPECT_NEAR(parse("1 g/hL as tartaric acid").value, 0.13326, 5e-6);
  EXPECT_NEAR(parse("1 g/100 mL  as  tartaric acid").value, 133.26, 5e-3);
}

TEST(Basis, FindsEachOfItsRowsAndNoOther) {
  for (const auto& row : bases()) EXPECT_EQ(find_basis(row.name), &row);
  EXPECT_EQ(find_basis("tartaric"), nullptr);
  EXPECT_EQ(find_basis(""), nullptr);
}

}  // namespace basis_test
}  // namespace vatwright
