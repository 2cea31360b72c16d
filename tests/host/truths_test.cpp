// Small truths of input and output that were once missed: each as a person meets it.
#include "tests/host/program.hpp"

#include <gtest/gtest.h>

namespace truths_test {

using namespace vatwright::test;

bool says(const std::string& text, std::string_view part) { return text.find(part) != std::string::npos; }

// The hint is one that works.
TEST(TruthsTest, ADensityWithoutAUnitIsAnsweredWithOneThatCanBe) {
  const auto said = call({"compute", "sugar.convert", "density=1.093"});
  EXPECT_EQ(said.status, 2);
  EXPECT_TRUE(says(said.err, "write '1.093 g/mL'")) << said.err;
  EXPECT_EQ(call({"compute", "sugar.convert", "density=1.093 g/mL"}).status, 0);
  EXPECT_TRUE(says(call({"compute", "sugar.convert", "density=1093"}).err, "write '1093 kg/m³'"));
}

TEST(TruthsTest, HintsDoNotLoop) {
  const auto ppm = call({"compute", "sulfite.molecular", "pH=3.4", "free SO2=14 ppm"});
  EXPECT_TRUE(says(ppm.err, "of must or wine write mg/L")) << ppm.err;
  const auto by_mass = call({"compute", "sulfite.molecular", "pH=3.4", "free SO2=14 mg/kg"});
  EXPECT_TRUE(says(by_mass.err, "14 mg/kg is about 14 mg/L")) << by_mass.err;
  EXPECT_EQ(call({"compute", "sulfite.molecular", "pH=3.4", "free SO2=14\u00a0mg/L"}).status, 0);
}

// A target that is not there is not answered with one that means something else, as if it were the same.
TEST(TruthsTest, ANearNameIsNearInMeaning) {
  const Folder folder;
  const auto recipe =
      folder.write("r.yaml",
                   "recipe: r\nlots: {A: {volume: 48 hL, pH: 3.4, free SO2: 14 mg/L, total SO2: 40 mg/L}}\nsteps:\n"
                   "  - sulfite.addition: {target bound SO2: 45 mg/L}\n");
  const auto said = call({"run", recipe.string()});
  EXPECT_EQ(said.status, 2);
  EXPECT_FALSE(says(said.err, "the nearest known one is 'target free SO2'")) << said.err;
}

// What went out cannot be taken back: it says that it is not whole.
TEST(TruthsTest, AStrayQuoteLeavesAMark) {
  const Folder folder;
  const auto recipe = folder.write("r.yaml", "recipe: r\nlots: {A: {stage: wine}}\nsteps:\n  - sulfite.molecular\n");
  std::string table = "lot,pH,free SO2 [mg/L]\n";
  for (int i = 0; i < 30000; ++i) table += "L" + std::to_string(i) + ",3.4,25\n";
  const auto lots = folder.write("lots.csv", table + "X,3.4,\"25\" mg/L\n");
  const auto said = call({"run", recipe.string(), "--lots", lots.string(), "--format", "csv"});
  EXPECT_EQ(said.status, 2);
  EXPECT_TRUE(says(said.out, "L1,")) << said.err;
  const auto last = said.out.rfind('\n', said.out.size() - 2);
  EXPECT_TRUE(says(said.out.substr(last == std::string::npos ? 0 : last > 300 ? last - 300 : 0), "NOT WHOLE"));
}

}  // namespace truths_test
