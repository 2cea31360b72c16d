// Colour against the CIE's tables and against other programs.
#include "plugins/chemistry/colour.hpp"

#include "plugins/chemistry/cie_1964.hpp"
#include "plugins/chemistry/colour_difference.hpp"
#include "plugins/chemistry/screen.hpp"
#include "tests/folder.hpp"
#include "tests/published/other_program.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cctype>
#include <cmath>
#include <fstream>
#include <iomanip>
#include <random>
#include <sstream>
#include <string>
#include <vector>

namespace vatwright::chemistry {
namespace colour_test {

template <class AbsorbanceAt>
Spectrum spectrum(int step, AbsorbanceAt at, int first = 380, int last = 780) {
  Spectrum made{{}, 0.01 * metre};
  for (int nm = first; nm <= last; nm += step)
    made.points.emplace_back(static_cast<double>(nm) * nanometre, coherent<Absorbance>(at(nm)));
  return made;
}

// Rows of numbers, comments and heads left out.
std::vector<std::vector<double>> rows_of(const std::string& file) {
  std::ifstream text(VATWRIGHT_SOURCE_DIR "/tests/published/" + file);
  std::vector<std::vector<double>> rows;
  for (std::string line; std::getline(text, line);) {
    if (line.empty() || line[0] == '#' || std::isalpha(static_cast<unsigned char>(line[0])) != 0) continue;
    auto& row = rows.emplace_back();
    std::istringstream cells(line);
    for (std::string cell; std::getline(cells, cell, ',');) row.push_back(std::stod(cell));
  }
  return rows;
}

// --- the CIE's tables

// ISO/CIE 11664-1: in steps of 1 nm each of the three functions sums to 116.6485, 116.6619 and 116.6740
// from 360 to 830 nm (the CIE's own check sums); a sum in steps of 5 nm is a fifth of it, but for what
// lies outside 380 to 780 nm and between the nodes.
// Outside check of pink.colour: 3 values within 0.005, seen.
// Source: ISO/CIE 11664-1, check sums of the observer.
TEST(CieObserver, SumsAreAFifthOfTheCiesCheckSums) {
  ObserverRow sum{};
  for (const auto& row : cie_1964_d65) {
    sum.x += row.x;
    sum.y += row.y;
    sum.z += row.z;
  }
  EXPECT_NEAR(5 * sum.x, 116.648519508908, 0.003);
  EXPECT_NEAR(5 * sum.y, 116.661877102312, 0.003);
  EXPECT_NEAR(5 * sum.z, 116.673980514647, 0.005);
}

// CIE 15: X, Y, Z of D65 for the 10° observer are 94.811, 100, 107.304 (from memory; sums in steps of
// 1 nm over the CIE's tables give 94.8111 and 107.3047). Steps of 5 and 10 nm differ by so much.
// Outside check of pink.colour: 3 values within 0.002 to 0.025, from memory.
// Source: CIE 15.
TEST(CieObserver, WhiteOfD65) {
  const auto clear = [](int) { return 0.0; };
  const auto by_5 = tristimulus(spectrum(5, clear));
  EXPECT_NEAR(by_5.x, 94.811, 0.002);
  EXPECT_NEAR(by_5.y, 100, 1e-12);
  EXPECT_NEAR(by_5.z, 107.304, 0.025);
  const auto by_10 = tristimulus(spectrum(10, clear));
  EXPECT_NEAR(by_10.x, 94.811, 0.02);
  EXPECT_NEAR(by_10.z, 107.304, 0.1);
}

// Water is the reference of every photometer: exactly 100, 0, 0.
TEST(CieLab, WaterIsWhite) {
  for (const int step : {5, 10}) {
    const auto water = lab(spectrum(step, [](int) { return 0.0; }));
    EXPECT_NEAR(water.lightness, 100, 1e-9);
    EXPECT_NEAR(water.a, 0, 1e-9);
    EXPECT_NEAR(water.b, 0, 1e-9);
    EXPECT_FALSE(hue_angle({100, 0, 0}));
  }
}

// CIE 15: a grey filter has L* = 116 T^(1/3) - 16, and 903.3 T near black; a* = b* = 0.
// Outside check of pink.colour: 7 values within 1e-6, derived.
// Source: CIE 15.
TEST(CieLab, GreyFilters) {
  constexpr std::pair<double, double> filters[] = {{0.5, 76.069261}, {0.18, 49.496108},        {0.1, 37.842430},
                                                   {0.01, 8.991442}, {0.0088564516, 8.000000}, {0.005, 4.516481},
                                                   {0.001, 0.903296}};
  for (const auto& [transmitted, lightness] : filters) {
    const auto grey = lab(spectrum(5, [t = transmitted](int) { return -std::log10(t); }));
    EXPECT_NEAR(grey.lightness, lightness, 1e-6);
    EXPECT_NEAR(grey.a, 0, 1e-9);
    EXPECT_NEAR(grey.b, 0, 1e-9);
    const Tristimulus white{94.811, 100, 107.304};
    const auto back = lab_of(tristimulus_of(grey, white), white);
    EXPECT_NEAR(back.lightness, grey.lightness, 1e-9);
  }
}

// --- spectra made up of bell curves, reckoned by another program from the same CIE tables

double bell(double nm, double centre, double width) { return std::exp(-std::pow((nm - centre) / width, 2) / 2); }
double pink(int nm) { return 0.25 * bell(nm, 520, 40) + 0.30 * std::exp(-(nm - 380) / 60.0); }
double white(int nm) { return 0.20 * std::exp(-(nm - 380) / 40.0); }
double red(int nm) { return 5.0 * bell(nm, 525, 45) + 6.0 * std::exp(-(nm - 380) / 70.0) + 0.3 * bell(nm, 620, 30); }

struct Made {
  double (*absorbance)(int);
  double path;  // mm
  double lightness, a, b;
};
constexpr Made made[] = {{pink, 1, 98.5322, 2.4572, 0.0371},    {pink, 2, 97.0995, 4.8438, 0.0988},
                         {pink, 10, 86.8193, 21.5584, 1.3949},  {pink, 20, 76.5332, 37.2641, 4.6461},
                         {white, 10, 99.5342, -1.3623, 4.8555}, {red, 1, 71.8773, 33.9581, 1.7902},
                         {red, 2, 54.1518, 50.4632, 8.4321},    {red, 10, 15.8801, 47.3283, 27.0128}};

// Outside check of pink.colour: 29 values within 5.1e-5; chroma 1e-4, hue 0.001°, derived.
// Source: sums over the CIE's tables in another program.
TEST(CieLab, SpectraThroughSeveralPaths) {
  for (const auto& one : made) {
    const auto seen = lab(through(spectrum(5, one.absorbance), one.path * 0.001 * metre));
    EXPECT_NEAR(seen.lightness, one.lightness, 5.1e-5) << one.path;
    EXPECT_NEAR(seen.a, one.a, 5.1e-5) << one.path;
    EXPECT_NEAR(seen.b, one.b, 5.1e-5) << one.path;
  }
  const auto by_10 = lab(spectrum(10, pink));
  EXPECT_NEAR(by_10.lightness, 86.8195, 5.1e-5);
  EXPECT_NEAR(by_10.a, 21.5520, 5.1e-5);
  EXPECT_NEAR(by_10.b, 1.3950, 5.1e-5);
  EXPECT_NEAR(chroma(lab(spectrum(5, pink))), 21.6035, 1e-4);
  EXPECT_NEAR(hue_angle(lab(spectrum(5, pink))).value_or(0), 3.702, 1e-3);
}

// OIV-MA-AS2-07B: intensity A420 + A520 + A620 for 1 cm, shade A420 / A520; readings of 0.350, 0.420
// and 0.090 in a cell of 0.2 cm are 1.750, 2.100 and 0.450.
// Outside check of pink.colour: 3 values within 1e-6, derived.
// Source: OIV-MA-AS2-07B, its definitions.
TEST(Intensity, ReadInAShortCell) {
  const Spectrum read{{{420.0 * nanometre, coherent<Absorbance>(0.350)},
                       {520.0 * nanometre, coherent<Absorbance>(0.420)},
                       {620.0 * nanometre, coherent<Absorbance>(0.090)}},
                      0.002 * metre};
  EXPECT_NEAR(intensity(read).value_or(Absorbance{}).value(), 4.300, 1e-12);
  EXPECT_NEAR(hue(read).value_or(Fraction{}).value(), 0.833333, 1e-6);
  EXPECT_NEAR(through(read, 0.01 * metre).points[1].second.value(), 2.100, 1e-12);
  EXPECT_FALSE(intensity(Spectrum{{read.points[0], read.points[1]}, read.path}));
  EXPECT_FALSE(hue(Spectrum{{read.points[1]}, read.path}));
}

// --- four wavelengths: the coefficients are from memory, so they are held against the whole spectrum of
// the pink and the red liquid above, which they were made for, within what a fit of four can do.
TEST(FourWavelengths, ComeNearTheWholeSpectrum) {
  for (const auto& one : made) {
    if (one.absorbance == white || (one.absorbance == red && one.path > 2)) continue;
    const auto whole = through(spectrum(5, one.absorbance), one.path * 0.001 * metre);
    EXPECT_LT(ciede2000(lab_by_four(whole), lab(whole)), 2.0) << one.path;
  }
  const auto x = tristimulus_by_four(spectrum(10, [](int) { return 0.0; }));
  EXPECT_NEAR(x.x, 94.811, 0.4);  // the white of D65, which the fit was not forced through
  EXPECT_NEAR(x.y, 100, 0.4);
  EXPECT_NEAR(x.z, 107.304, 0.4);
  EXPECT_NEAR(lab_by_four(spectrum(10, [](int) { return 0.0; })).lightness, 100, 1e-9);
}

// --- CIEDE2000

// Sharma, Wu, Dalal 2005, Table 1: 34 pairs, printed to 4 decimals, many of them about the places where
// the mean hue jumps.
// Outside check of pink.colour: 34 values within 1e-4, seen.
// Source: Sharma, Wu, Dalal 2005, table 1.
TEST(Ciede2000, PublishedPairs) {
  const auto rows = rows_of("ciede2000_pairs.csv");
  ASSERT_EQ(rows.size(), 34u);
  for (const auto& row : rows) {
    const Lab one{row.at(1), row.at(2), row.at(3)};
    const Lab other{row.at(4), row.at(5), row.at(6)};
    EXPECT_NEAR(ciede2000(one, other), row.at(7), 1e-4) << "pair " << row[0];
    EXPECT_NEAR(ciede2000(other, one), row.at(7), 1e-4) << "pair " << row[0] << " the other way round";
  }
}

// The npm package culori on random pairs, as colour_rows.mjs wrote them.
// Outside check of pink.colour: 300 values within 2e-6, another program.
// Source: culori (npm).
TEST(Ciede2000, RandomPairsOfCulori) {
  const auto rows = rows_of("colour_rows.csv");
  ASSERT_EQ(rows.size(), 300u);
  for (const auto& row : rows) {
    const Lab one{row.at(0), row.at(1), row.at(2)};
    EXPECT_NEAR(ciede2000(one, {row.at(3), row.at(4), row.at(5)}), row.at(6), 2e-6);
  }
}

std::istringstream colormath(const std::string& what, const std::vector<std::vector<double>>& rows = {}) {
  std::ostringstream out;
  out << std::setprecision(17);
  for (const auto& row : rows) {
    for (const double cell : row) out << cell << ' ';
    out << '\n';
  }
  const test::Folder folder;
  const std::string file = folder.write("rows.txt", out.str()).string();
  return std::istringstream(
      published::output_of(published::shell_word(VATWRIGHT_SOURCE_DIR "/tests/published/colour_python.py") + " " +
                           what + " " + published::shell_word(file)));
}

double draw(std::mt19937_64& random, double low, double high) {
  return low + (high - low) * static_cast<double>(random() >> 11) / 9007199254740992.0;
}

// Its mean hue may run past 360°, which its term for blue does not mind by more than 1e-4.
// Outside check of pink.colour: 200 values within 1e-4, another program.
// Source: python3-colormath.
TEST(Ciede2000, RandomPairsOfColormath) {
  std::mt19937_64 random(11);
  std::vector<std::vector<double>> pairs;
  for (int i = 0; i < 200; ++i) {
    auto& pair = pairs.emplace_back();
    for (int k = 0; k < 2; ++k)
      for (const double reach : {0.0, 70.0, 70.0})
        pair.push_back(reach == 0 ? draw(random, 0, 100) : draw(random, -reach, reach));
  }
  auto theirs = colormath("difference", pairs);
  for (const auto& p : pairs) {
    double expected = 0;
    ASSERT_TRUE(theirs >> expected);
    EXPECT_NEAR(ciede2000({p[0], p[1], p[2]}, {p[3], p[4], p[5]}), expected, 1e-4);
  }
}

// The tables that colormath brings along, every 10 nm. Its D65 is an older printing, with two decimals,
// that lies up to 0.12 % from the CIE's present one.
// Outside check of pink.colour: 164 values within exact; D65 0.12 %, another program.
// Source: python3-colormath.
TEST(CieObserver, TablesOfColormath) {
  auto theirs = colormath("tables");
  for (std::size_t i = 0; i < cie_1964_d65.size(); i += 2) {
    ObserverRow row{};
    ASSERT_TRUE(theirs >> row.x >> row.y >> row.z >> row.d65) << i;
    EXPECT_DOUBLE_EQ(cie_1964_d65[i].x, row.x) << i;
    EXPECT_DOUBLE_EQ(cie_1964_d65[i].y, row.y) << i;
    EXPECT_DOUBLE_EQ(cie_1964_d65[i].z, row.z) << i;
    EXPECT_NEAR(cie_1964_d65[i].d65, row.d65, 1.2e-3 * row.d65) << i;
  }
}

// The whole way from a spectrum, by those tables: the older D65 moves a colour by less than 0.02.
// Outside check of pink.colour: 300 values within 0.05 of X, Y, Z; 0.02 of L*, a*, b*, another program.
// Source: python3-colormath.
TEST(CieLab, RandomSpectraOfColormath) {
  std::mt19937_64 random(12);
  std::vector<std::vector<double>> transmitted;
  std::vector<Spectrum> spectra;
  for (int i = 0; i < 50; ++i) {
    const double height = draw(random, 0.02, 2), centre = draw(random, 480, 560), yellow = draw(random, 0, 1);
    spectra.push_back(spectrum(10, [&](int nm) {
      return height * bell(nm, centre, 40) + yellow * std::exp(-(nm - 380) / 60.0) + draw(random, 0, 0.01);
    }));
    auto& row = transmitted.emplace_back();
    for (const auto& point : spectra.back().points) row.push_back(std::pow(10, -point.second.value()));
  }
  auto theirs = colormath("spectrum", transmitted);
  for (const auto& one : spectra) {
    Tristimulus xyz{};
    Lab expected{};
    ASSERT_TRUE(theirs >> xyz.x >> xyz.y >> xyz.z >> expected.lightness >> expected.a >> expected.b);
    const auto found = tristimulus(one);
    EXPECT_NEAR(found.x, xyz.x, 0.05);
    EXPECT_NEAR(found.y, xyz.y, 0.05);
    EXPECT_NEAR(found.z, xyz.z, 0.05);
    const auto seen = lab(one);
    EXPECT_NEAR(seen.lightness, expected.lightness, 0.02);
    EXPECT_NEAR(seen.a, expected.a, 0.02);
    EXPECT_NEAR(seen.b, expected.b, 0.02);
  }
}

// --- on a screen

// sRGB of culori before it clips; its white differs from ours in the fifth digit, and a matrix of four
// digits in the fourth.
// Outside check of pink.colour: 900 values within 1 of 255, another program.
// Source: culori (npm).
TEST(Screen, RandomColoursOfCulori) {
  for (const auto& row : rows_of("colour_rows.csv")) {
    const auto shown = on_screen({row.at(0), row.at(1), row.at(2)});
    const auto level = [](double theirs) { return std::clamp(theirs, 0.0, 255.0); };
    EXPECT_NEAR(shown.red, level(row.at(7)), 1.0);
    EXPECT_NEAR(shown.green, level(row.at(8)), 1.0);
    EXPECT_NEAR(shown.blue, level(row.at(9)), 1.0);
    const bool far_outside =
        std::min({row.at(7), row.at(8), row.at(9)}) < -1.5 || std::max({row.at(7), row.at(8), row.at(9)}) > 256.5;
    EXPECT_TRUE(shown.clipped || !far_outside);
  }
  const auto water = on_screen({100, 0, 0});
  EXPECT_EQ(water.red, 255);
  EXPECT_EQ(water.green, 255);
  EXPECT_EQ(water.blue, 255);
  EXPECT_FALSE(water.clipped);
}

}  // namespace colour_test
}  // namespace vatwright::chemistry
