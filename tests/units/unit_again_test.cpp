// Texts of units in any order and again and again: what was read before, on whichever thread, never shows.
#include "units/catalogue.hpp"
#include "units/error.hpp"
#include "units/parse.hpp"

#include <gtest/gtest.h>

#include <random>
#include <string>
#include <thread>
#include <vector>

namespace unit_again_test {

using namespace vatwright;

std::vector<const Symbol*> plain_symbols() {
  std::vector<const Symbol*> out;
  for (const auto& symbol : symbols())
    if (symbol.unit.scale == Scale::linear && symbol.unit.zero == 0 && symbol.text.find('%') == std::string_view::npos)
      out.push_back(&symbol);
  return out;
}

// Quotients of two symbols, some thousand different texts, each the quotient of their factors.
void read_many(unsigned seed) {
  std::mt19937 random(seed);
  const auto all = plain_symbols();
  for (int i = 0; i < 20'000; ++i) {
    const Symbol& above = *all[random() % all.size()];
    const Symbol& below = *all[random() % all.size()];
    const std::string text = std::string(above.text) + "/" + std::string(below.text);
    const Unit unit = parse_unit(text);
    ASSERT_EQ(unit.factor, above.unit.factor / below.unit.factor) << text;
    for (std::size_t d = 0; d < Dimension::slots; ++d)
      ASSERT_EQ(unit.dimension.power[d], above.unit.dimension.power[d] - below.unit.dimension.power[d]) << text;
  }
}

TEST(UnitAgain, ManyTextsInAnyOrder) {
  std::vector<std::thread> threads;
  for (unsigned seed = 1; seed <= 3; ++seed) threads.emplace_back([seed] { read_many(seed); });
  read_many(4);
  for (auto& thread : threads) thread.join();
}

TEST(UnitAgain, WhatIsRefusedIsRefusedAgain) {
  for (int i = 0; i < 3; ++i) {
    EXPECT_DOUBLE_EQ(parse_unit("mg/L").factor, 1e-3);  // kg/m³
    for (const char* text : {"", "mg/l L", "ppm", "mg/Lx", "°C/L"}) EXPECT_THROW(parse_unit(text), InputError) << text;
  }
}

// The column of the error is that of the text at hand.
TEST(UnitAgain, ErrorsKnowTheirPlace) {
  const auto offset = [](const char* text) {
    try {
      parse(text);
    } catch (const InputError& error) {
      return error.offset();
    }
    return std::size_t{999};
  };
  EXPECT_EQ(offset("1 mgg/L"), 2U);
  EXPECT_EQ(offset("1000 mgg/L"), 5U);
}

}  // namespace unit_again_test
