// One row for each unit that a laboratory slip may carry: its coherent value and its dimension.
// The factors are exact definitions (SI Brochure; NIST Handbook 44, appendix C).
#include "host/plugin/lot.hpp"
#include "units/parse.hpp"

#include <gtest/gtest.h>

#include <algorithm>

namespace vatwright {
namespace every_unit_test {

struct Row {
  const char* unit;
  double one;  // coherent value of one
  Dimension dimension;
};

constexpr double gallon = 231 * 0.0254 * 0.0254 * 0.0254;  // 231 cubic inches
constexpr double grain = 64.79891e-6;                      // kg; a pound is 7000, an ounce 437.5

const Row rows[] = {
    {"L", 1e-3, dimension_of<Volume>()},
    {"l", 1e-3, dimension_of<Volume>()},
    {"mL", 1e-6, dimension_of<Volume>()},
    {"ml", 1e-6, dimension_of<Volume>()},
    {"cL", 1e-5, dimension_of<Volume>()},
    {"dL", 1e-4, dimension_of<Volume>()},
    {"hL", 0.1, dimension_of<Volume>()},
    {"hl", 0.1, dimension_of<Volume>()},
    {"m³", 1, dimension_of<Volume>()},
    {"m3", 1, dimension_of<Volume>()},
    {"gal", gallon, dimension_of<Volume>()},
    {"imp gal", 4.54609e-3, dimension_of<Volume>()},
    {"fl oz", gallon / 128, dimension_of<Volume>()},
    {"imp fl oz", 4.54609e-3 / 160, dimension_of<Volume>()},
    {"kg", 1, dimension_of<Mass>()},
    {"g", 1e-3, dimension_of<Mass>()},
    {"mg", 1e-6, dimension_of<Mass>()},
    {"µg", 1e-9, dimension_of<Mass>()},
    {"t", 1e3, dimension_of<Mass>()},
    {"lb", 7000 * grain, dimension_of<Mass>()},
    {"oz", 437.5 * grain, dimension_of<Mass>()},
    {"short ton", 2000 * 7000 * grain, dimension_of<Mass>()},
    {"mg/L", 1e-3, dimension_of<MassConcentration>()},
    {"g/L", 1, dimension_of<MassConcentration>()},
    {"g/hL", 1e-2, dimension_of<MassConcentration>()},
    {"kg/m³", 1, dimension_of<Density>()},
    {"g/mL", 1e3, dimension_of<Density>()},
    {"lb/1000 gal", 7 * grain / gallon, dimension_of<MassConcentration>()},
    {"mmol/L", 1, dimension_of<AmountConcentration>()},
    {"mol/L", 1e3, dimension_of<AmountConcentration>()},
    {"meq/L", 1, dimension_of<Acidity>()},
    {"eq/L", 1e3, dimension_of<Acidity>()},
    {"mmol/L/pH", 1, dimension_of<BufferCapacity>()},
    {"g/mol", 1e-3, dimension_of<MolarMass>()},
    {"%", 0.01, dimension_of<Fraction>()},
    {"mL/100 mL", 0.01, dimension_of<Fraction>()},
    {"% vol", 0.01, dimension_of<Strength>()},
    {"proof", 0.005, dimension_of<Strength>()},
    {"% mass", 0.01, dimension_of<MassFraction>()},
    {"°Brix", 0.01, dimension_of<MassFraction>()},
    {"Brix", 0.01, dimension_of<MassFraction>()},
    {"pH", 1, dimension_of<Ph>()},
    {"µS/cm", 1e-4, dimension_of<Conductivity>()},
    {"mS/cm", 0.1, dimension_of<Conductivity>()},
    {"NTU", 1, dimension_of<Turbidity>()},
    {"AU", 1, dimension_of<Absorbance>()},
    {"AU/cm", 100, dimension_of<AbsorbancePerLength>()},
    {"Pa", 1, dimension_of<Pressure>()},
    {"kPa", 1e3, dimension_of<Pressure>()},
    {"hPa", 100, dimension_of<Pressure>()},
    {"bar", 1e5, dimension_of<Pressure>()},
    {"mbar", 100, dimension_of<Pressure>()},
    {"psi", 7000 * grain * 9.80665 / (0.0254 * 0.0254), dimension_of<Pressure>()},
    {"J", 1, dimension_of<Energy>()},
    {"kJ", 1e3, dimension_of<Energy>()},
    {"cal", 4.184, dimension_of<Energy>()},
    {"kcal", 4184, dimension_of<Energy>()},
    {"kWh", 3.6e6, dimension_of<Energy>()},
    {"kJ/100 mL", 1e7, dimension_of<EnergyPerVolume>()},
    {"W", 1, dimension_of<Power>()},
    {"kW", 1e3, dimension_of<Power>()},
    {"s", 1, dimension_of<Time>()},
    {"min", 60, dimension_of<Time>()},
    {"h", 3600, dimension_of<Time>()},
    {"d", 86400, dimension_of<Time>()},
    {"m", 1, dimension_of<Length>()},
    {"cm", 1e-2, dimension_of<Length>()},
    {"mm", 1e-3, dimension_of<Length>()},
    {"nm", 1e-9, dimension_of<Length>()},
    {"in", 0.0254, dimension_of<Length>()},
};

TEST(EveryUnit, HasItsFactorAndDimension) {
  for (const auto& row : rows) {
    const Unit unit = parse_unit(row.unit);
    EXPECT_NEAR(unit.factor / row.one, 1, 1e-12) << row.unit;
    EXPECT_EQ(unit.dimension, row.dimension) << row.unit << " is " << describe(unit.dimension);
    EXPECT_TRUE(unit.counted.empty()) << row.unit;
  }
}

TEST(EveryUnit, TableIsSortedAndWithoutDoubles) {
  const auto table = symbols();
  EXPECT_TRUE(std::is_sorted(table.begin(), table.end(), [](auto& a, auto& b) { return a.text < b.text; }));
  EXPECT_EQ(std::adjacent_find(table.begin(), table.end(), [](auto& a, auto& b) { return a.text == b.text; }),
            table.end());
  for (const auto& symbol : table) {
    EXPECT_FALSE(symbol.help.empty()) << symbol.text;
    EXPECT_FALSE(symbol.gnu.empty()) << symbol.text;
  }
}

// No prefixed symbol may hide behind a symbol of the table with the same letters.
TEST(EveryUnit, EveryPrefixIsReachable) {
  for (const auto& symbol : symbols())
    for (const auto& prefix : prefixes()) {
      const auto mark = prefix.factor == 1e-6 ? std::string_view("µ") : prefix.text;
      if (symbol.prefixes.find(mark) == std::string_view::npos) continue;
      double factor = 0;
      const std::string text = std::string(prefix.text) + std::string(symbol.text);
      EXPECT_EQ(find_symbol(text, factor), &symbol) << text;
      EXPECT_EQ(factor, prefix.factor) << text;
    }
}

TEST(EveryUnit, OfTheLotParsesToItsKeysDimension) {
  for (const Input* key : lot::keys) {
    if (key->kind != Kind::quantity && key->kind != Kind::series) continue;
    const Unit unit = parse_unit(key->unit);
    EXPECT_EQ(unit.dimension, key->dimension) << key->name;
    EXPECT_EQ(unit.counted, key->counted) << key->name;
    if (key->kind != Kind::series) continue;
    EXPECT_EQ(parse_unit(key->x_unit).dimension, key->x_dimension) << key->name;
  }
}

TEST(EveryUnit, IsDescribedInWords) {
  for (const auto& row : rows) EXPECT_EQ(describe(row.dimension).find("a quantity in"), std::string::npos) << row.unit;
  EXPECT_EQ(describe(parse_unit("kg/h").dimension), "a quantity in kg s^-1");
}

}  // namespace every_unit_test
}  // namespace vatwright
