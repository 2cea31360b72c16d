#include "host/book/readings.hpp"

#include "host/sheet/fact_json.hpp"

namespace vatwright::book {

std::vector<DatedReading> readings_of(const Book& book, const std::string& lot, const Input& fact) {
  std::vector<DatedReading> all;
  auto rows = book.data().prepare(
      "SELECT t.entry FROM touched t JOIN happened h ON h.entry = t.entry WHERE t.lot = ? AND h.corrected_by IS NULL "
      "ORDER BY t.moment, t.entry");
  rows.with(lot);
  while (rows.step()) {
    const Entry entry = book.entry(rows.number(0));
    if (entry.kind != measured) continue;
    const Json payload = Json::parse(entry.payload);
    const Json& readings = payload.at("readings");
    const auto at = readings.find(std::string(fact.name));
    if (at != readings.end()) all.push_back({entry.at, fact_of(fact, *at).number});
  }
  return all;
}

}  // namespace vatwright::book
