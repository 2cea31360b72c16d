#include "host/book/check.hpp"

#include "host/book/index.hpp"
#include "host/book/rebuild.hpp"
#include "host/book/schema.hpp"
#include "units/error.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace vatwright::book {
namespace {

using sql::Database;
using Faults = std::vector<std::string>;

// The tables as this program would make them.
std::string tables_of(const Database& database) {
  std::string all;
  auto rows = database.prepare("SELECT type, name, sql FROM sqlite_schema WHERE sql IS NOT NULL ORDER BY type, name");
  while (rows.step()) all += rows.text(0) + " " + rows.text(1) + " " + rows.text(2) + "\n";
  return all;
}

// What is made of the entries, whatever numbers SQLite gave to its rows.
struct MadeTable {
  std::string_view what, sql;
  int columns;
};
constexpr std::array made_tables{
    MadeTable{"the order of the entries", "SELECT entry, moment, corrected_by FROM happened ORDER BY entry", 3},
    MadeTable{"the lots", "SELECT lot, moment, entry, volume, facts FROM state ORDER BY lot, moment, entry", 5},
    MadeTable{"the lots today",
              "SELECT l.name, s.lot, s.moment, s.entry FROM lot l LEFT JOIN state s ON s.id = l.state ORDER BY l.name",
              4},
    MadeTable{"the history", "SELECT lot, moment, entry FROM touched ORDER BY lot, moment, entry", 3},
    MadeTable{"the work", "SELECT sheet, step, part, moment, lot, what, done_by FROM work ORDER BY sheet, step, part",
              7},
    MadeTable{
        "the stock",
        "SELECT entry, line, moment, lot, substance, strength, batch, amount, unit FROM weighed ORDER BY entry, line",
        9},
    MadeTable{
        "the forecasts",
        "SELECT entry, fact, moment, lot, calculation, unit, forecast, measured FROM foretold ORDER BY entry, fact", 8},
    MadeTable{"the signatures", "SELECT entry, moment, sheet, who, holds FROM signature ORDER BY entry", 5}};

void look_at_file(const Database& database, Faults& found) {
  for (const char* check : {"PRAGMA integrity_check", "PRAGMA foreign_key_check"}) {
    auto rows = database.prepare(check);
    while (rows.step())
      if (rows.text(0) != "ok") found.push_back("the file: " + rows.text(0));
  }
}

void look_at_chain(const Book& book, Faults& found) {
  std::string previous(no_entry);
  std::int64_t number = 0;
  book.each_entry([&](const Entry& entry) {
    if (entry.number != ++number)
      found.push_back(fmt::format("entry {} stands where entry {} should", entry.number, number));
    if (entry.previous != previous)
      found.push_back(fmt::format("entry {} does not follow on the one before it", entry.number));
    if (entry.hash != hash_of(entry)) found.push_back(fmt::format("entry {} is not as it was written", entry.number));
    previous = entry.hash;
    number = entry.number;
  });
}

// Row by row, in the order of their keys.
void look_at_made(const Database& database, const Database& anew, Faults& found) {
  for (const auto& [what, sql, columns] : made_tables) {
    auto ours = database.prepare(sql), theirs = anew.prepare(sql);
    bool more = true, same = true;
    while (more && same) {
      more = ours.step();
      same = more == theirs.step();
      for (int i = 0; more && same && i < columns; ++i)
        same = ours.is_null(i) == theirs.is_null(i) && ours.text(i) == theirs.text(i);
    }
    if (!same) found.push_back(fmt::format("{} do not follow from the entries", what));
  }
}

void look_at(const Book& book, Faults& found) {
  const Database& database = book.data();
  look_at_file(database, found);
  const Database anew({}, Database::Mode::in_memory);
  move_on(anew, 0);
  if (tables_of(anew) != tables_of(database)) found.emplace_back("the tables are not those that a book has");
  look_at_chain(book, found);
  if (!found.empty()) return;
  auto copy = anew.prepare("INSERT INTO entry VALUES(?, ?, ?, ?, ?, ?, ?, ?)");
  book.each_entry([&](const Entry& e) {
    copy.with(e.number, e.kind, e.at, e.entered, e.who, e.payload, e.previous, e.hash).run();
  });
  Index index(anew);
  make_anew(anew, index, from_the_first);
  look_at_made(database, anew, found);
}

}  // namespace

Faults faults(const Book& book) {
  Faults found;
  try {
    look_at(book, found);
  } catch (const sql::Trouble& trouble) {
    found.push_back(std::string("the file: ") + trouble.what());
  } catch (const Json::exception&) {
    found.emplace_back("an entry is not as it was written");
  } catch (const InputError& error) {
    found.emplace_back(error.what());
  }
  return found;
}

}  // namespace vatwright::book
