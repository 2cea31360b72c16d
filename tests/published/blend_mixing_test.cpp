// Liquids put together, against figures from outside: contraction by OIML R 22 from another program, a
// charge balance of two wines from another program with other constants, and textbook buffers.
#include "plugins/chemistry/mixing.hpp"
#include "units/error.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <optional>
#include <vector>

namespace vatwright::chemistry {
namespace blend_mixing_test {

Part spirit(double litres, double percent) { return {.volume = litres * litre, .ethanol = percent * percent_vol}; }

struct Contraction {
  double first, first_strength, second, second_strength, volume, strength;
};

// OIML R 22 at 20 °C, computed by another program from the same formula (derived).
// Outside check of blend.mix, sugar.fortification: 5 values within 6e-5 L, 6e-6 % vol, derived.
// Source: OIML R 22, its formula in another program.
TEST(BlendContraction, OimlR22) {
  const Contraction cases[] = {{1000, 12, 500, 14, 1500.0125, 12.66656},
                               {1000, 12, 100, 96, 1091.7131, 19.78542},
                               {1000, 11, 1000, 15, 2000.0740, -1}};
  for (const auto& c : cases) {
    const std::array parts{spirit(c.first, c.first_strength), spirit(c.second, c.second_strength)};
    const auto blended = blend(parts);
    // Half of the last digit that is printed, and a little for its own rounding.
    EXPECT_NEAR(blended.volume / litre, c.volume, 6e-5) << c.second_strength;
    if (c.strength > 0) {
      EXPECT_NEAR(*blended.ethanol / percent_vol, c.strength, 6e-6) << c.second_strength;
    }
  }
}

TEST(BlendContraction, MassOfEthanolIsKept) {
  const std::array parts{spirit(300, 9.5), spirit(120, 40), spirit(7, 96), spirit(50, 0)};
  const auto blended = blend(parts);
  Mass before{};
  for (const auto& part : parts) before += part.volume * ethanol_concentration(*part.ethanol);
  const Mass after = blended.volume * ethanol_concentration(*blended.ethanol);
  EXPECT_NEAR(after / before, 1, 1e-12);
}

// The same two liquids as alcoholometry's own mixing of two.
TEST(BlendContraction, AgreesWithTheMixOfTwo) {
  const auto two =
      mix(ethanol_water(40.0 * litre, 30.0 * percent_vol), ethanol_water(60.0 * litre, 80.0 * percent_vol));
  const std::array parts{spirit(40, 30), spirit(60, 80)};
  const auto blended = blend(parts);
  EXPECT_NEAR(blended.volume / two.volume, 1, 1e-12);
  EXPECT_NEAR(*blended.contraction / two.contraction, 1, 1e-9);
}

// --- charge balance

Composition wine(std::initializer_list<std::pair<Acid, double>> grams, double ph) {
  Composition c;
  for (const auto& [acid, mass] : grams) c.add(acid, mass * gram_per_litre);
  c.rest = base_to(c, ph * ph_unit, Medium());
  return c;
}

double ph_of_blend(const Composition& a, const Composition& b, double share_of_a) {
  const LabAnalysis any{};  // only its end point is read
  const std::array parts{Part{.volume = share_of_a * litre, .ethanol = Strength{}, .acids = any},
                         Part{.volume = (1 - share_of_a) * litre, .ethanol = Strength{}, .acids = any}};
  const std::array<std::optional<Composition>, 2> dissolved{a, b};
  return blend(parts, dissolved).ph->value();
}

// Two wines and three shares of the first, computed by another program (derived: constants in water at
// 25 °C, no activities). The constants differ from ours by up to 0.1 with the activities, and cancel
// but for 0.01, since both programs start from the pH that was measured. The mean of the pH lies 0.02
// to 0.03 above, that of the protons 0.05 to 0.11 below.
// Outside check of blend.mix: 3 values within 0.01 pH, derived.
// Source: a charge balance in another program, with other constants.
TEST(BlendPh, TwoWinesByAnotherProgram) {
  const auto first =
      wine({{Acid::tartaric, 4.0}, {Acid::malic, 3.0}, {Acid::succinic, 0.5}, {Acid::acetic, 0.3}}, 3.05);
  const auto second =
      wine({{Acid::tartaric, 2.0}, {Acid::malic, 0.2}, {Acid::lactic, 2.5}, {Acid::succinic, 0.7}, {Acid::acetic, 0.5}},
           3.75);
  const std::pair<double, double> rows[] = {{0.25, 3.55468}, {0.50, 3.36924}, {0.75, 3.20050}};
  for (const auto& [share, ph] : rows) EXPECT_NEAR(ph_of_blend(first, second, share), ph, 0.01) << share;
}

// Acetic acid and sodium acetate, 0.15 and 0.05 mol/L with 0.05 and 0.15: together 0.1 of each, whose
// pH at 25 °C is 4.65 (standard acetate buffer of Bates, Determination of pH, from memory).
// Outside check of blend.mix: 1 value within 0.02 pH, from memory.
// Source: pH standards of NIST and IUPAC (Buck et al. 2002; Bates).
TEST(BlendPh, TwoAcetateBuffersMakeTheStandardOne) {
  const auto buffer = [](double acid, double salt) {
    Composition c;
    c[Acid::acetic] = (acid + salt) * mole_per_litre;
    c[Ion::sodium] = salt * mole_per_litre;
    return c;
  };
  EXPECT_NEAR(ph_of_blend(buffer(0.15, 0.05), buffer(0.05, 0.15), 0.5), 4.65, 0.02);
}

// What the engine infers of a lot gives the lot back: a blend of a lot with itself is that lot.
TEST(BlendPh, OfALotWithItselfIsThatLot) {
  const Part lot{.volume = 3.0 * hectolitre,
                 .ethanol = 12.3 * percent_vol,
                 .density = 991.0 * kilogram_per_cubic_metre,
                 .acids = LabAnalysis{.ph = 3.27 * ph_unit,
                                      .titratable = 84.0 * milliequivalent_per_litre,
                                      .tartaric = 2.2 * gram_per_litre,
                                      .potassium = 0.9 * gram_per_litre}};
  const auto blended = blend(std::vector(5, lot));
  EXPECT_NEAR(blended.volume / hectolitre, 15, 1e-9);
  EXPECT_NEAR(*blended.ethanol / percent_vol, 12.3, 1e-9);
  EXPECT_NEAR(blended.ph->value(), 3.27, 1e-6);
  EXPECT_NEAR(*blended.titratable / milliequivalent_per_litre, 84, 1e-6);
  EXPECT_NEAR(*blended.density / kilogram_per_cubic_metre, 991, 1e-9);
}

TEST(BlendPh, UnknownOfOneIsUnknownOfAll) {
  const Part known{.volume = litre,
                   .ethanol = 12.0 * percent_vol,
                   .density = 991.0 * kilogram_per_cubic_metre,
                   .acids = LabAnalysis{.ph = 3.3 * ph_unit, .titratable = 80.0 * milliequivalent_per_litre}};
  const Part bare{.volume = litre};
  const auto blended = blend(std::array{known, bare});
  EXPECT_FALSE(blended.ethanol || blended.density || blended.ph || blended.titratable || blended.contraction);
  EXPECT_NEAR(blended.volume / litre, 2, 1e-12);
}

TEST(BlendPh, OfNothingIsRefused) {
  EXPECT_THROW(blend(std::vector<Part>()), InputError);
  EXPECT_THROW(blend(std::array{Part{.volume = Volume{}}}), InputError);
}

}  // namespace blend_mixing_test
}  // namespace vatwright::chemistry
