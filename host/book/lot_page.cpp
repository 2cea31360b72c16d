#include "host/book/lot_page.hpp"

#include "host/book/card_table.hpp"
#include "host/plugin/lot.hpp"
#include "host/sheet/chart.hpp"
#include "host/sheet/html_page.hpp"
#include "units/parse.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <limits>
#include <map>
#include <set>

namespace vatwright::book {
namespace {

// A limit that the last sheet of the lot was held against.
struct LimitOfSheet {
  std::string name;
  double value;  // coherent
};

// By what they are on, which for some is a fact of a lot. A sheet of an earlier program does not say it.
std::multimap<std::string, LimitOfSheet> limits_of(const Book& book, const std::string& lot) {
  std::multimap<std::string, LimitOfSheet> all;
  auto rows = book.data().prepare(
      "SELECT t.entry FROM touched t JOIN happened h ON h.entry = t.entry JOIN entry e ON e.number = t.entry "
      "WHERE t.lot = ? AND e.kind = ? AND h.corrected_by IS NULL ORDER BY t.moment DESC, t.entry DESC LIMIT 1");
  if (!rows.with(lot, kept).step()) return all;
  const Json payload = book.payload(rows.number(0));
  for (const auto& step : payload.at("sheet").at("steps")) {
    if (step.at("lot") != lot) continue;
    for (const auto& check : step.at("checks")) {
      const auto on = check.find("limit on");
      if (on == check.end()) continue;
      const Json& limit = check.at("limit");
      all.emplace(
          on->get<std::string>(),
          LimitOfSheet{check.at("name"),
                       parse_unit(limit.at("unit").get<std::string>()).coherent(limit.at("value").get<double>())});
    }
  }
  return all;
}

// Readings are dots, forecasts another trace, over the days since the lot began.
std::optional<Chart> course(const Book& book, const LotState& lot, const Input& key, const Hour& until,
                            const std::multimap<std::string, LimitOfSheet>& limits) {
  auto rows = book.data().prepare(
      "SELECT moment, facts FROM state WHERE lot = ? AND entry >= ? AND moment <= ? ORDER BY moment, entry");
  rows.with(lot.name, lot.born, until.value_or(std::numeric_limits<std::int64_t>::max()));
  std::optional<std::int64_t> first;
  Trace readings{.name = "measured", .dots = true, .points = {}},
      forecasts{.name = key.behaves.kept == Kept::book ? "booked" : "forecast", .dots = true, .points = {}};
  std::int64_t last_entry = 0;
  while (rows.step()) {
    const auto state = LotState::of(lot.name, rows.text(1));
    if (!first) first = rows.number(0);
    const auto value = state.value(key);
    if (!value) continue;
    const Json& fact = state.facts.at(std::string(key.name));
    const auto entry = fact.value("entry", std::int64_t(0));
    if (entry == last_entry) continue;
    last_entry = entry;
    auto& trace = fact.value("from", "") == from_reading ? readings : forecasts;
    trace.points.emplace_back(static_cast<double>(rows.number(0) - *first), value->number);
  }
  if (readings.points.size() + forecasts.points.size() < 2) return std::nullopt;
  Chart chart{.name = std::string(key.name) + " over time",
              .x = {"days since the lot began", "d", 1},
              .y = {std::string(key.name), key.unit, 2},
              .traces = {}};
  for (auto* trace : {&readings, &forecasts})
    if (!trace->points.empty()) chart.traces.push_back(std::move(*trace));
  double last = 0;
  for (const auto& trace : chart.traces)
    for (const auto& point : trace.points) last = std::max(last, point.first);
  const auto [from, to] = limits.equal_range(std::string(key.name));
  std::set<double> drawn;
  for (auto limit = from; limit != to; ++limit)
    if (drawn.insert(limit->second.value).second)
      chart.traces.push_back(
          {.name = limit->second.name, .points = {{0, limit->second.value}, {last, limit->second.value}}});
  return chart;
}

template <class Rows>
void section(Markup& page, const char* title, std::vector<std::string> heads, Rows write_rows) {
  page.open("section");
  page.element("h2", title);
  CardTable table(page, title, std::move(heads));
  write_rows(table);
  table.end();
  page.close();
}

}  // namespace

void write_lot(Markup& page, const Book& book, const LotState& lot, const Hour& until) {
  section(page, "Figures", {"fact", "value", "where from"}, [&](CardTable& table) {
    for (const Input* key : lot::keys)
      if (const auto at = lot.facts.find(std::string(key->name)); at != lot.facts.end())
        table.row({std::string(key->name), fact_words(lot, *key), origin_words(*at)});
  });
  std::size_t number = 0;
  const auto limits = limits_of(book, lot.name);
  for (const Input* key : lot::keys)
    if (key->kind == Kind::quantity)
      if (const auto chart = course(book, lot, *key, until, limits))
        write_chart(page, *chart, fmt::format("course-{}", ++number));
  if (const auto parts = ancestors(book, lot); !parts.empty())
    section(page, "Made of", {"lot", "share", "through so many joins"}, [&](CardTable& table) {
      for (const auto& part : parts)
        table.row({part.lot, fmt::format("{:.1f} %", 100 * part.share), std::to_string(part.depth)});
    });
  section(page, "What was done", {"entry", "when", "what", "by"}, [&](CardTable& table) {
    for (const auto& [entry, what, corrected_by] : history(book, lot.name)) {
      if (until && seconds_of(entry.at) > *until) continue;
      table.row({std::to_string(entry.number), short_hour(entry.at),
                 what + (corrected_by ? fmt::format(" (no longer stands: entry {})", *corrected_by) : ""), entry.who});
    }
  });
}

std::string lot_page(const Book& book, const LotState& lot, const std::string& as_of, const Hour& until) {
  Markup page;
  const PageName name{"Lot " + lot.name, "cellar book", {}, {}};
  write_head(page, name);
  page.open("body");
  page.open("main");
  write_title(page, name);
  page.element("p", "As the book " + book.file().string() + " had it on " + as_of + ".");
  if (const auto open = open_work(book, lot.name); !open.empty())
    section(page, "Open work", {"number", "what", "cautions"}, [&](CardTable& table) {
      for (const auto& work : open) table.row({work.id, work.what, fmt::format("{}", fmt::join(work.cautions, " · "))});
    });
  write_lot(page, book, lot, until);
  page.close();
  page.close();
  page.close();
  return page.document();
}

}  // namespace vatwright::book
