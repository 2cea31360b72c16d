// A slip of the pen in a table of lots orders nothing.
#include <fmt/format.h>

#include <random>

#include "tests/host/lots_table.hpp"

namespace unusual_rows_test {

using namespace vatwright;
using namespace vatwright::test;

TEST(UnusualRows, AreHeldBackUntilSomebodyHasLooked) {
  std::mt19937 random(8);
  std::uniform_real_distribution<> volume(10, 900), ph(2.9, 4.1);
  std::string table = head;
  constexpr int rows = 40;
  for (int row = 0; row < rows; ++row)
    // Every other volume is written a hundred times too large.
    table += fmt::format("L{},{:.1f},{:.2f},12,58,pink\n", row,
                         volume(random) * (row % 2 == 0 ? 1 : 100) + 1000 * (row % 2), ph(random));
  const auto held = run(table);
  const auto accepted = run(table, std::string("unusual readings: accepted\n") + recipe);
  EXPECT_TRUE(says(held.said.err, ", 20 with an unusual reading"));
  for (std::size_t row = 1; row <= rows; ++row) {
    const bool usual = row % 2 == 1;
    SCOPED_TRACE(held.cell(row, "lot"));
    EXPECT_EQ(held.cell(row, "to add").empty(), !usual);
    EXPECT_EQ(held.cell(row, "unusual readings").empty(), usual);
    if (!usual) {
      EXPECT_TRUE(says(held.cell(row, "error"), "held back: volume of "));
    }
    EXPECT_EQ(accepted.cell(row, "error"), "");
    EXPECT_FALSE(accepted.cell(row, "to add").empty());
    EXPECT_TRUE(says(accepted.cell(row, "dose"), "g/hL"));
    EXPECT_TRUE(says(accepted.cell(row, "read"), "volume "));
    EXPECT_TRUE(says(accepted.cell(row, "read"), "pH "));
  }
}

}  // namespace unusual_rows_test
