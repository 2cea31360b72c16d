// The reader of figures: what it takes, and the same double as the standard library's own reader.
#include "units/figure.hpp"

#include <gtest/gtest.h>

#include <charconv>
#include <random>
#include <string>
#include <tuple>

namespace vatwright {
namespace figure_test {

TEST(Figure, IsTakenFromTheStartOfAText) {
  const std::tuple<const char*, double, std::size_t> rows[] = {
      {"48.5 mg/L", 48.5, 4}, {"-.5", -0.5, 3},   {"5eq", 5, 1},   {"48.", 48, 3},
      {"007", 7, 3},          {"1e-3x", 1e-3, 4}, {"0e999", 0, 5}, {"-0.0", -0.0, 4}};
  for (const auto& [text, value, length] : rows) {
    const auto read = read_figure(text);
    EXPECT_TRUE(read.fits()) << text;
    EXPECT_EQ(read.value, value) << text;
    EXPECT_EQ(read.length, length) << text;
  }
}

TEST(Figure, IsNothingElse) {
  for (const char* text : {"", "-", ".", "+5", " 5", "inf", "-inf", "nan", "e5", "−5"}) {
    EXPECT_FALSE(read_figure(text).fits()) << text;
    EXPECT_EQ(read_figure(text).length, 0U) << text;
  }
}

TEST(Figure, OutOfRangeIsNeitherZeroNorInfinite) {
  for (const std::string text : {"1e-400", "-1e-400", "0.000001e-330", "1e400", "-1e400", "9e99999999999"}) {
    const auto read = read_figure(text);
    EXPECT_TRUE(read.out_of_range) << text;
    EXPECT_FALSE(read.fits()) << text;
    EXPECT_EQ(read.length, text.size()) << text;
    EXPECT_EQ(read.value, 0) << text;
  }
}

TEST(Figure, IsTheDoubleThatTheStandardLibraryReads) {
  std::mt19937 random(7);
  const std::string letters = "0123456789012345678901234567890123456789....--eE+ x";
  for (int i = 0; i < 200'000; ++i) {
    std::string text;
    for (auto n = 1 + random() % 24; n > 0; --n) text += letters[random() % letters.size()];
    double value = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    const auto read = read_figure(text);
    ASSERT_EQ(read.length, static_cast<std::size_t>(end - text.data())) << text;
    ASSERT_EQ(read.out_of_range, error == std::errc::result_out_of_range) << text;
    ASSERT_EQ(read.value, read.fits() ? value : 0) << text;
  }
}

}  // namespace figure_test
}  // namespace vatwright
