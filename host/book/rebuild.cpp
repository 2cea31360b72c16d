#include "host/book/rebuild.hpp"

#include "host/book/schema.hpp"

#include <fmt/format.h>

namespace vatwright::book {
namespace {

// The order of the entries, what corrects what, and which lots they have to do with.
void put_in_order(const sql::Database& database, Index& index) {
  database.execute("DELETE FROM touched; DELETE FROM happened");
  auto all =
      database.prepare("SELECT number, kind, at, entered, who, payload, previous, hash FROM entry ORDER BY number");
  auto happen = database.prepare("INSERT INTO happened(entry, moment) VALUES(?, ?)");
  auto correct = database.prepare("UPDATE happened SET corrected_by = ? WHERE entry = ?");
  while (all.step()) {
    const Entry entry = entry_at(all);
    const auto moment = seconds_of(entry.at);
    const Json payload = Json::parse(entry.payload);
    happen.with(entry.number, moment).run();
    if (payload.contains("corrects")) correct.with(entry.number, payload["corrects"].get<std::int64_t>()).run();
    index.touch(entry, moment, payload);
  }
}

}  // namespace

Entry entry_at(const sql::Statement& row) {
  return {row.number(0), row.text(1), row.text(2), row.text(3), row.text(4), row.text(5), row.text(6), row.text(7)};
}

void move_on(const sql::Database& database, std::int64_t version) {
  for (; version < newest_version; ++version) database.execute(migrations.at(static_cast<std::size_t>(version)));
  database.execute(
      fmt::format("PRAGMA application_id={}; PRAGMA user_version={}", application, newest_version).c_str());
}

void make_anew(const sql::Database& database, Index& index, std::int64_t from) {
  database.execute("DELETE FROM lot");
  for (const char* table : {"state", "weighed", "foretold", "signature", "work"})
    database.prepare(fmt::format("DELETE FROM {} WHERE moment >= ?", table)).with(from).run();
  database.prepare("UPDATE work SET done_by = NULL WHERE done_by IN (SELECT entry FROM happened WHERE moment >= ?)")
      .with(from)
      .run();
  if (from == from_the_first) put_in_order(database, index);
  database.execute(
      "INSERT INTO lot(name, state) SELECT lot, id FROM (SELECT lot, id, row_number() OVER "
      "(PARTITION BY lot ORDER BY moment DESC, entry DESC) AS place FROM state) WHERE place = 1");
  auto rows = database.prepare(
      "SELECT e.number, e.kind, e.at, e.entered, e.who, e.payload, e.previous, e.hash, h.moment FROM happened h JOIN "
      "entry e ON e.number = h.entry WHERE h.moment >= ? AND h.corrected_by IS NULL ORDER BY h.moment, h.entry");
  rows.with(from);
  while (rows.step()) {
    const Entry entry = entry_at(rows);
    index.apply(entry, rows.number(8), Json::parse(entry.payload));
  }
}

}  // namespace vatwright::book
