// pink.colour, run by recipe.
#include "tests/plugins/run.hpp"

#include <fmt/format.h>

#include <cmath>

namespace vatwright::test {
namespace pink_colour_test {

// A liquid made up of bell curves, absorbance through 10 mm. Its colour through several paths was
// reckoned by another program from the CIE's tables; tests/published/colour_test.cpp has the same.
double pink(int nm) {
  return 0.25 * std::exp(-std::pow((nm - 520) / 40.0, 2) / 2) + 0.30 * std::exp(-(nm - 380) / 60.0);
}

std::string readings(std::initializer_list<int> wavelengths, double path = 10) {
  std::string text = fmt::format("absorbance: {{path: {} mm", path);
  for (const int nm : wavelengths) text += fmt::format(", {} nm: {:.9f} AU", nm, pink(nm) * path / 10);
  return text + "}";
}
std::string whole(int step, double path = 10) {
  std::string text = fmt::format("absorbance: {{path: {} mm", path);
  for (int nm = 380; nm <= 780; nm += step) text += fmt::format(", {} nm: {:.9f} AU", nm, pink(nm) * path / 10);
  return text + "}";
}

bool has_result(const StepSheet& step, std::string_view name) {
  for (const auto& value : step.outcome.results)
    if (value.info->name == name) return true;
  return false;
}

// Outside check of pink.colour: 10 values within 1e-6 to 0.001, derived.
// Source: sums over the CIE's tables in another program.
TEST(PinkColour, WholeSpectrum) {
  const auto step = run_step(whole(5), "pink.colour");
  EXPECT_NEAR(result(step, "intensity"), 0.460580, 1e-6);
  EXPECT_NEAR(result(step, "hue"), 0.591237, 1e-6);
  EXPECT_NEAR(result(step, "yellow share"), 100 * 0.165009 / 0.460580, 1e-3);
  EXPECT_NEAR(result(step, "red share"), 100 * 0.279092 / 0.460580, 1e-3);
  EXPECT_NEAR(result(step, "blue share"), 100 * 0.016479 / 0.460580, 1e-3);
  EXPECT_NEAR(result(step, "L*"), 86.8193, 1e-4);
  EXPECT_NEAR(result(step, "a*"), 21.5584, 1e-4);
  EXPECT_NEAR(result(step, "b*"), 1.3949, 1e-4);
  EXPECT_NEAR(result(step, "C*"), 21.6035, 1e-4);
  EXPECT_NEAR(result(step, "h"), 3.702, 1e-3);
  EXPECT_NEAR(result(step, "path of L*a*b*"), 10, 1e-9);
  EXPECT_FALSE(has_result(step, "colour difference"));
  EXPECT_FALSE(has_result(step, "least intensity in wine"));
  EXPECT_TRUE(noted(step, "steps of 5 nm"));
  EXPECT_TRUE(noted(step, "told for the cell that was used, 10.0 mm"));
}

// The same liquid read in other cells: the intensity does not change, and L*a*b* are those of the path
// that was asked for.
TEST(PinkColour, PathIsNeverAssumed) {
  struct Told {
    double cell;
    const char* path;
    double lightness, a, b;
  };
  constexpr Told table[] = {{10, "2 mm", 97.0995, 4.8438, 0.0988},
                            {2, "10 mm", 86.8193, 21.5584, 1.3949},
                            {5, "20 mm", 76.5332, 37.2641, 4.6461},
                            {10, "1 mm", 98.5322, 2.4572, 0.0371}};
  for (const auto& row : table) {
    const auto step = run_step(whole(5, row.cell), fmt::format("pink.colour: {{path: {}}}", row.path));
    EXPECT_NEAR(result(step, "L*"), row.lightness, 1e-4);
    EXPECT_NEAR(result(step, "a*"), row.a, 1e-4);
    EXPECT_NEAR(result(step, "b*"), row.b, 1e-4);
    EXPECT_NEAR(result(step, "intensity"), 0.460580, 1e-6);
  }
  EXPECT_TRUE(noted(run_step(whole(5, 2), "pink.colour: {path: 10 mm}"), "an error of reading grows 5.0 times"));
  EXPECT_FALSE(noted(run_step(whole(5, 10), "pink.colour: {path: 2 mm}"), "an error of reading grows"));
}

// Another 5 nm spectrum of the same colour with all absorbances times 0.8 lies 2.7661 away (CIEDE2000),
// and 4.5090 by the older measure.
TEST(PinkColour, DifferenceToAReference) {
  const auto step = run_step(
      whole(5), "pink.colour: {reference L*: 89.2026, reference a*: 17.7570, reference b*: 0.9466, path: 10 mm}");
  EXPECT_NEAR(result(step, "colour difference"), 2.7661, 1e-4);
  const auto* older = opinion(step, "plain distance");
  ASSERT_NE(older, nullptr);
  EXPECT_NEAR(number(older->there), 4.5090, 1e-4);
  EXPECT_EQ(step.outcome.swatches.size(), 2u);
  EXPECT_TRUE(has(refusal(whole(5), "pink.colour: {reference L*: 89.2}"), "part of its L*, a*, b*"));
}

// sRGB (255, 203, 216), the red channel clipped, reckoned by another program; through 2 mm (255, 244, 247).
TEST(PinkColour, SwatchAndItsCaution) {
  const auto ten = run_step(whole(5), "pink.colour: {path: 10 mm}");
  ASSERT_EQ(ten.outcome.swatches.size(), 1u);
  EXPECT_EQ(ten.outcome.swatches[0].red, 255);
  EXPECT_EQ(ten.outcome.swatches[0].green, 203);
  EXPECT_EQ(ten.outcome.swatches[0].blue, 216);
  EXPECT_TRUE(noted(ten, "a screen is not a glass"));
  EXPECT_TRUE(noted(ten, "no screen can show"));
  const auto two = run_step(whole(5), "pink.colour: {path: 2 mm}");
  EXPECT_EQ(two.outcome.swatches.at(0).green, 244);
  EXPECT_EQ(two.outcome.swatches.at(0).blue, 247);
}

// What cannot be had from the readings is not given, and the sheet says why.
TEST(PinkColour, GivesWhatTheReadingsHold) {
  const auto two = run_step(readings({420, 520}), "pink.colour");
  EXPECT_NEAR(result(two, "hue"), 0.591237, 1e-6);
  for (const char* name : {"intensity", "L*", "a*", "b*", "yellow share"}) EXPECT_FALSE(has_result(two, name)) << name;
  EXPECT_TRUE(noted(two, "intensity was not given: it needs 420, 520 and 620 nm"));
  EXPECT_TRUE(noted(two, "L*a*b* were not given"));
  EXPECT_TRUE(two.outcome.swatches.empty());

  const auto three = run_step(readings({420, 520, 620}), "pink.colour");
  EXPECT_NEAR(result(three, "intensity"), 0.460580, 1e-6);
  EXPECT_FALSE(has_result(three, "L*"));

  const auto four = run_step(readings({450, 520, 570, 630}), "pink.colour");
  EXPECT_NEAR(result(four, "L*"), 86.82, 0.5);  // an estimate
  EXPECT_TRUE(noted(four, "are an estimate from 450, 520, 570 and 630 nm"));
  EXPECT_FALSE(has_result(four, "hue"));
  EXPECT_TRUE(noted(four, "hue was not given"));

  EXPECT_TRUE(noted(run_step(whole(20), "pink.colour"), "L*a*b* were not given"));
  constexpr const char* dark = "absorbance: {path: 10 mm, 450 nm: 3 AU, 520 nm: 4 AU, 570 nm: 3 AU, 630 nm: 2 AU}";
  EXPECT_TRUE(has(refusal(dark, "pink.colour"), "too dark"));
  EXPECT_TRUE(has_result(run_step(dark, "pink.colour: {path: 1 mm}"), "L*"));
}

// OIV-MA-AS2-07B: the cell is chosen so that readings lie between 0.3 and 0.7.
TEST(PinkColour, ReadingsOutsideTheRangeOfTheMethod) {
  const auto step =
      run_step("absorbance: {path: 2 mm, 420 nm: 0.350 AU, 520 nm: 0.420 AU, 620 nm: 0.090 AU}", "pink.colour");
  EXPECT_NEAR(result(step, "intensity"), 4.300, 1e-9);
  EXPECT_NEAR(result(step, "hue"), 0.833333, 1e-6);
  EXPECT_TRUE(noted(step, "620 nm (0.090 AU)"));
  EXPECT_FALSE(noted(step, "420 nm (0.350 AU)"));
}

// 60 to 90 % is lost from settled must to wine (Phytoma, La Vigne, archive VI1562118679): a must of 1.25
// to 5.0 for a wine of 0.5, never one figure.
TEST(PinkColour, MustToWineIsAnInterval) {
  constexpr const char* must =
      "stage: must, absorbance: {path: 10 mm, 420 nm: 0.4 AU, 520 nm: 0.7 AU, 620 nm: 0.15 AU}";
  const auto step = run_step(must, "pink.colour");
  EXPECT_NEAR(result(step, "intensity"), 1.25, 1e-9);
  EXPECT_NEAR(result(step, "most intensity in wine"), 0.5, 1e-9);
  EXPECT_NEAR(result(step, "least intensity in wine"), 0.125, 1e-9);
  EXPECT_TRUE(noted(step, "60 to 90 %"));
}

TEST(PinkColour, WaterHasNoHue) {
  const auto step = run_step("absorbance: {path: 10 mm, 420 nm: 0 AU, 520 nm: 0 AU, 620 nm: 0 AU}", "pink.colour");
  EXPECT_NEAR(result(step, "intensity"), 0, 1e-12);
  EXPECT_FALSE(has_result(step, "hue"));
  EXPECT_FALSE(has_result(step, "red share"));
}

TEST(PinkColour, RefusesWhatIsNoAbsorbance) {
  for (const char* bad : {"-0.1 AU", "nan AU", "25 AU", "0.3"}) {
    const auto said = refusal(fmt::format("absorbance: {{path: 10 mm, 520 nm: {}}}", bad), "pink.colour");
    EXPECT_FALSE(said.empty()) << bad;
  }
  EXPECT_TRUE(has(refusal("absorbance: {520 nm: 0.3 AU}", "pink.colour"), "without its optical path"));
  EXPECT_TRUE(has(refusal("pH: 3.3", "pink.colour"), "absorbance"));
}

// Free sulfur dioxide hides pigment: the sheet warns, and only when there is some.
TEST(PinkColour, SulfiteHidesColour) {
  EXPECT_TRUE(noted(run_step(whole(10) + ", free SO2: 25 mg/L", "pink.colour"), "free sulfur dioxide hides"));
  EXPECT_FALSE(noted(run_step(whole(10) + ", free SO2: 0 mg/L", "pink.colour"), "free sulfur dioxide hides"));
}

}  // namespace pink_colour_test
}  // namespace vatwright::test
