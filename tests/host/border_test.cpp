// The layout of what crosses the border between host and plugins. A size that changes here by a change
// of yours is written anew; one that you did not mean to change has just been found.
#include "host/plugin/plugin.hpp"
#include "units/parse.hpp"

#include <gtest/gtest.h>

#include <cstddef>

namespace border_test {

using namespace vatwright;

struct Pinned {
  const char* type;
  std::size_t size, pinned;
};

// With libstdc++ on a machine of 64 bits.
const Pinned all[] = {
    {"Dimension", sizeof(Dimension), 13},
    {"Unit", sizeof(Unit), 48},
    {"Measured", sizeof(Measured), 64},
    {"InputError", sizeof(InputError), 56},
    {"Source", sizeof(Source), 48},
    {"Range", sizeof(Range), 16},
    {"Need", sizeof(Need), 32},
    {"Input", sizeof(Input), 368},
    {"ResultInfo", sizeof(ResultInfo), 112},
    {"LimitInfo", sizeof(LimitInfo), 64},
    {"ModelInfo", sizeof(ModelInfo), 136},
    {"HandOver", sizeof(HandOver), 112},
    {"Calculation", sizeof(Calculation), 280},
    {"Manifest", sizeof(Manifest), 80},
    {"SubstanceFacts", sizeof(SubstanceFacts), 264},
    {"Series", sizeof(Series), 64},
    {"KeyBounds", sizeof(KeyBounds), 40},
    {"Value", sizeof(Value), 536},
    {"KeyedValue", sizeof(KeyedValue), 544},
    {"Row", sizeof(Row), 80},
    {"Analysis", sizeof(Analysis), 48},
    {"LimitRow", sizeof(LimitRow), 112},
    {"TermRow", sizeof(TermRow), 192},
    {"CompositionRule", sizeof(CompositionRule), 248},
    {"Figure", sizeof(Figure), 48},
    {"ResultValue", sizeof(ResultValue), 40},
    {"Changed", sizeof(Changed), 544},
    {"Raised", sizeof(Raised), 48},
    {"NewLot", sizeof(NewLot), 96},
    {"Drawn", sizeof(Drawn), 40},
    {"Addition", sizeof(Addition), 192},
    {"Check", sizeof(Check), 272},
    {"SecondOpinion", sizeof(SecondOpinion), 168},
    {"Column", sizeof(Column), 56},
    {"Cell", sizeof(Cell), 40},
    {"Table", sizeof(Table), 80},
    {"Axis", sizeof(Axis), 56},
    {"Trace", sizeof(Trace), 64},
    {"Chart", sizeof(Chart), 224},
    {"Swatch", sizeof(Swatch), 40},
    {"Outcome", sizeof(Outcome), 424},
};

TEST(BorderTest, SizesArePinned) {
  for (const auto& [type, size, pinned] : all)
    EXPECT_EQ(size, pinned) << type << ": if its layout is meant to change, write the new size here";
}

// What the host reads before it knows whether it may read on keeps its place for ever.
TEST(BorderTest, TheHeadOfTheManifestKeepsItsPlace) {
  EXPECT_EQ(offsetof(Manifest, magic), 0U);
  EXPECT_EQ(offsetof(Manifest, interface), 4U);
  EXPECT_EQ(offsetof(Manifest, toolchain), 8U);
}

}  // namespace border_test
