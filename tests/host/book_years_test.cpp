// The law's accounts through a cellar's years, against a reckoner that shares no code with the program.
#include <gtest/gtest.h>

#include "tests/host/book.hpp"

namespace book_years_test {

using namespace vatwright;
using namespace vatwright::test;

TEST(BookYears, AccountsAreThoseOfAnIndependentReckoner) {
  const CellarBook book;
  const std::string years = std::to_string(500 / fewer);
  const auto reckoner = source_dir / "tests/host/cellar_years.py";
  const auto exported = (book.folder.path() / "years.jsonl").string();
  ASSERT_EQ(run_program(reckoner, {"write", years, "19", exported}).status, 0);
  const auto imported = book({"import", exported});
  ASSERT_EQ(imported.status, 0) << imported.err;
  const auto lots = book.folder.write("lots.json", book({"lots", "--format", "json"}).out).string();
  const auto verdict = run_program(reckoner, {"compare", years, "19", lots});
  EXPECT_EQ(verdict.status, 0) << verdict.out << verdict.err;
  // Other years are not these: the reckoner can find a difference.
  EXPECT_NE(run_program(reckoner, {"compare", years, "20", lots}).status, 0);
}

}  // namespace book_years_test
