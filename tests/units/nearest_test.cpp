#include "units/nearest.hpp"

#include <gtest/gtest.h>

#include <array>
#include <string>

namespace vatwright {
namespace {

constexpr std::array<std::string_view, 6> known{"tartaric acid", "malic acid", "lactic acid", "mg", "Mg", "volume"};

TEST(Nearest, CountsEachKindOfSlip) {
  EXPECT_EQ(nearest("volme", known), "volume");    // lost
  EXPECT_EQ(nearest("volumee", known), "volume");  // added
  EXPECT_EQ(nearest("vokume", known), "volume");   // changed
  EXPECT_EQ(nearest("voulme", known), "volume");   // swapped
  EXPECT_EQ(nearest("VOLUME", known), "volume");   // six quarters
  EXPECT_EQ(nearest("voume!?", known), "");        // three slips are beyond a third of seven letters
}

TEST(Nearest, TakesASwapForOneSlip) {
  constexpr std::array<std::string_view, 1> only{"mg"};
  EXPECT_EQ(nearest("gm", only), "mg");
}

TEST(Nearest, PrefersTheFewestSlips) {
  EXPECT_EQ(nearest("mallic acid", known), "malic acid");
  EXPECT_EQ(nearest("latic acid", known), "lactic acid");
  EXPECT_EQ(nearest("mg", known), "mg");
  EXPECT_EQ(nearest("Mg", known), "Mg");
}

TEST(Nearest, IsSilentWhenNothingIsClose) {
  EXPECT_EQ(nearest("gravity", known), "");
  EXPECT_EQ(nearest("", std::span<const std::string_view>()), "");
  EXPECT_EQ(nearest(std::string(5000, 'a'), known), "");
}

}  // namespace
}  // namespace vatwright
