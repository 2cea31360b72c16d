// Books that earlier programs wrote are opened: of each version of the tables one is kept in tests/host/books.
#include <gtest/gtest.h>

#include "host/book/schema.hpp"
#include "host/book/sqlite.hpp"
#include "tests/host/book.hpp"

namespace book_versions_test {

using namespace vatwright;
using namespace vatwright::test;

// A further migration wants the book of the version before it: books/write VATWRIGHT VERSION, with that program.
TEST(BookVersions, ABookOfEachVersionIsOpened) {
  for (int version = 1; version <= book::newest_version; ++version) {
    SCOPED_TRACE("version " + std::to_string(version));
    const auto dump = source_dir / "tests/host/books" / ("version-" + std::to_string(version) + ".sql");
    ASSERT_TRUE(fs::exists(dump)) << "a book of that version is to be kept there";
    const CellarBook book, anew;
    {
      const sql::Database made(book.file, sql::Database::Mode::write);
      made.execute(contents(dump).c_str());
      auto asked = made.prepare("PRAGMA user_version");
      ASSERT_TRUE(asked.step());
      ASSERT_EQ(asked.number(0), version);
    }
    // All that is made of its entries is as this program would make it.
    const auto exported = book({"export"}).out;
    for (const auto& kind : {"kept", "signed", "done", "measured", "withdrawn"})
      EXPECT_NE(exported.find(std::string("\"kind\":\"") + kind + "\""), std::string::npos) << kind;
    ASSERT_GT(std::count(exported.begin(), exported.end(), '\n'), 4);
    ASSERT_EQ(anew({"import", anew.folder.write("book.jsonl", exported).string()}).status, 0);
    for (const auto& words :
         {std::vector<std::string>{"lots"}, {"history", "T5"}, {"lot", "T5"}, {"lot", "Joined"}, {"stock"}, {"learn"}})
      EXPECT_EQ(book.json(words), anew.json(words)) << words.front();
    const auto check = book({"check"});
    EXPECT_EQ(check.status, 0) << check.out;
    EXPECT_EQ(book({"measure", "T5", "pH=3.45"}).status, 0);
    EXPECT_EQ(book({"check"}).status, 0);
    const sql::Database now(book.file, sql::Database::Mode::read);
    auto asked = now.prepare("PRAGMA user_version");
    ASSERT_TRUE(asked.step());
    EXPECT_EQ(asked.number(0), book::newest_version);
  }
}

// A file that is there and empty is a book that nobody has begun.
TEST(BookVersions, AnEmptyFileIsBegun) {
  const CellarBook book;
  book.folder.write("cellar.book", "");
  EXPECT_EQ(book({"measure", "T5", "pH=3.45"}).status, 0);
  EXPECT_EQ(book({"check"}).status, 0);
}

// What a migration does is done whole or not at all, also to a book with the tables of none.
TEST(BookVersions, AMigrationThatFailsLeavesTheBookAsItWas) {
  const CellarBook book;
  {
    const sql::Database made(book.file, sql::Database::Mode::write);
    made.execute(("PRAGMA application_id=" + std::to_string(book::application)).c_str());
    made.execute("CREATE TABLE signature(mine)");  // in the way of the last table of the first migration
  }
  EXPECT_EQ(book({"measure", "T5", "pH=3.45"}).status, 2);
  const sql::Database now(book.file, sql::Database::Mode::read);
  auto asked = now.prepare("SELECT count(*) FROM sqlite_schema");
  ASSERT_TRUE(asked.step());
  EXPECT_EQ(asked.number(0), 1);
}

}  // namespace book_versions_test
