// The unit table against GNU units (https://www.gnu.org/software/units/), an independent program
// with its own table of definitions: factor and dimension of every symbol with every prefix.
#include "tests/published/other_program.hpp"
#include "units/parse.hpp"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <map>
#include <set>
#include <string>

namespace vatwright {
namespace units_gnu_test {

using published::output_of;
using published::shell_word;

constexpr double tolerance = 1e-9;  // relative; GNU units prints 17 digits

double gnu(const std::string& have, const std::string& want) {
  return std::stod(output_of("units -t -o %.17g " + shell_word(have) + " " + shell_word(want)));
}

// The coherent unit of a dimension, in GNU words: the test of a factor is also one of its dimension,
// because that program refuses to convert between two dimensions. Strength and share by mass are
// plain ratios there.
std::string coherent_unit(const Dimension& dimension) {
  static constexpr std::array<const char*, Dimension::slots> base{"m",     "kg",    "s",     "A",     "K", "mol",
                                                                  nullptr, nullptr, nullptr, nullptr, "1", "1"};
  std::string text = "1";
  for (std::size_t i = 0; i < base.size(); ++i) {
    if (dimension.power[i] == 0) continue;
    if (base[i] == nullptr) throw std::logic_error("a base unit that GNU units lacks");
    text.append(" ").append(base[i]).append("^").append(std::to_string(dimension.power[i]));
  }
  return text;
}

// "mm" is "milli" and "m" there.
std::string gnu_prefix(double factor) {
  static const std::map<double, std::string> words{{1e3, "kilo"},   {1e2, "hecto"},  {1e-1, "deci"}, {1e-2, "centi"},
                                                   {1e-3, "milli"}, {1e-6, "micro"}, {1e-9, "nano"}};
  return words.at(factor);
}

void agrees(double ours, double theirs, const std::string& what) {
  EXPECT_NEAR(ours / theirs, 1, tolerance) << what << ": " << ours << " here, " << theirs << " there";
}

bool starts(std::string_view text, std::string_view with) { return text.starts_with(with); }

// Outside check of units: over 60 values within 1e-9, another program.
// Source: GNU units.
TEST(GnuUnits, EverySymbolHasTheSameFactorThere) {
  int compared = 0;
  for (const auto& symbol : symbols()) {
    if (symbol.gnu == "-" || starts(symbol.gnu, "temp") || symbol.gnu == "baume") continue;
    SCOPED_TRACE(std::string(symbol.text));
    const std::string want = coherent_unit(symbol.unit.dimension);
    ASSERT_NO_THROW(agrees(symbol.unit.factor, gnu(std::string(symbol.gnu), want), "alone"));
    ++compared;
    // A prefix stands as a factor before what is a quotient there.
    const std::string between = symbol.gnu.find('/') == std::string_view::npos ? "" : " ";
    for (const auto& prefix : prefixes()) {
      const std::string text = std::string(prefix.text) + std::string(symbol.text);
      double factor = 1;
      if (find_symbol(text, factor) != &symbol) continue;
      ASSERT_NO_THROW(
          agrees(parse_unit(text).factor, gnu(gnu_prefix(factor) + between + std::string(symbol.gnu), want), text));
      ++compared;
    }
  }
  EXPECT_GT(compared, 60);
}

// What GNU units has no word for. Each is the base unit of its own dimension, or a scale that
// tests/units/scales_test.cpp checks against its definition.
TEST(GnuUnits, LacksOnlyTheseSymbols) {
  std::set<std::string_view> lacking;
  for (const auto& symbol : symbols())
    if (symbol.gnu == "-") lacking.insert(symbol.text);
  EXPECT_EQ(lacking, (std::set<std::string_view>{"eq", "pH", "NTU", "AU", "SG", "°Oe"}));
  for (const char* base : {"eq", "pH", "NTU", "AU"}) EXPECT_EQ(parse_unit(base).factor, 1) << base;
}

// Outside check of units: 28 values within 1e-9, another program.
// Source: GNU units.
TEST(GnuUnits, HasTheSameTemperatureScales) {
  int compared = 0;
  for (const auto& symbol : symbols()) {
    if (!starts(symbol.gnu, "temp")) continue;
    for (const int degrees : {-40, -4, 0, 16, 20, 37, 212}) {
      const std::string have = std::string(symbol.gnu) + "(" + std::to_string(degrees) + ")";
      agrees(symbol.unit.coherent(degrees), gnu(have, "K"), have);
    }
    ++compared;
  }
  EXPECT_EQ(compared, 4);
}

// Outside check of units: 6 values within 1e-9, another program.
// Source: GNU units.
TEST(GnuUnits, HasTheSameBaumeScale) {
  const Unit baume = parse_unit("°Bé");
  for (const char* degrees : {"0", "1", "5.5", "12", "14.5", "40"}) {
    const std::string have = "baume(" + std::string(degrees) + ")";
    agrees(baume.coherent(std::stod(degrees)) / water_density_20, gnu(have, "g/cm^3"), have);
  }
}

// Outside check of units: 12 values within 1e-9, another program.
// Source: GNU units.
TEST(GnuUnits, AgreesOnCompoundUnits) {
  const std::pair<const char*, const char*> rows[] = {
      {"mg/L", "mg/liter"},
      {"g/hL", "g/hectoliter"},
      {"lb/1000 gal", "lb/(1000 gallon)"},
      {"g/mL", "g/ml"},
      {"kg/m³", "kg/m^3"},
      {"mmol/L", "mmol/liter"},
      {"µS/cm", "microsiemens/cm"},
      {"oz/1000 gal", "oz/(1000 gallon)"},
      {"gal/short ton", "gallon/shortton"},
      {"lb/1000 imp gal", "lb/(1000 brgallon)"},
      {"mL/100 mL", "ml/(100 ml)"},
      {"fl oz/gal", "usfloz/gallon"},
  };
  for (const auto& [ours, theirs] : rows) {
    const Unit unit = parse_unit(ours);
    agrees(unit.factor, gnu(theirs, coherent_unit(unit.dimension)), ours);
  }
}

}  // namespace units_gnu_test
}  // namespace vatwright
