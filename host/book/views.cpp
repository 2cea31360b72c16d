#include "host/book/views.hpp"

#include "host/book/keep.hpp"
#include "host/plugin/lot.hpp"
#include "host/recipe/recipe.hpp"
#include "host/sheet/page.hpp"
#include "units/print.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <array>
#include <functional>
#include <map>

namespace vatwright::book {
namespace {

// In the list of all lots.
constexpr std::array<const Input*, 4> in_the_list{&lot::volume, &lot::ph, &lot::free_so2, &lot::total_so2};

std::string work_id(const sql::Statement& row) {
  return fmt::format("{}.{}{}", row.number(0), row.number(1),
                     row.number(2) > 0 ? fmt::format(".{}", row.number(2)) : "");
}

std::map<std::string, std::vector<std::string>> all_open_work(const Book& book) {
  std::map<std::string, std::vector<std::string>> all;
  auto rows =
      book.data().prepare("SELECT sheet, step, part, lot FROM work WHERE done_by IS NULL ORDER BY sheet, step, part");
  while (rows.step()) all[rows.text(3)].push_back(work_id(rows));
  return all;
}

void each_lot(const Book& book, const Hour& until, const std::function<void(const LotState&)>& visit) {
  auto states =
      book.data().prepare(until ? "SELECT lot, facts FROM (SELECT lot, facts, row_number() OVER (PARTITION BY lot "
                                  "ORDER BY moment DESC, entry "
                                  "DESC) AS place FROM state WHERE moment <= ?) WHERE place = 1 ORDER BY lot"
                                : "SELECT l.name, s.facts FROM lot l JOIN state s ON s.id = l.state ORDER BY l.name");
  if (until) states.with(*until);
  while (states.step()) visit(LotState::of(states.text(0), states.text(1)));
}

void add_ancestors(const Book& book, const LotState& lot, double share, int depth, std::vector<Ancestor>& all) {
  constexpr int most_joins = 40;
  if (!lot.made.is_object() || depth > most_joins) return;
  const auto made = seconds_of(lot.made.at("at").get<std::string>());
  for (const auto& [name, part] : lot.made.at("of").items()) {
    const double of_all = share * part.get<double>();
    all.push_back({name, of_all, depth});
    // As it was when it was drawn from: its name may be another wine's by now.
    const auto before = book.lot(name, made);
    if (before && before->born < lot.made.at("entry").get<std::int64_t>())
      add_ancestors(book, *before, of_all, depth + 1, all);
  }
}

std::string readings_words(const Json& readings) {
  std::string words;
  for (const auto& [fact, reading] : readings.items()) {
    const Input* key = find_lot_key(fact);
    if (key == nullptr) continue;
    LotState one;
    one.facts[fact] = reading;
    words += (words.empty() ? "" : ", ") + fact + " " + fact_words(one, *key);
  }
  return words;
}

std::string weight_words(const Json& amount) {
  return fmt::format("{:.6g} {}", amount.at("value").get<double>(), amount.at("unit").get<std::string>());
}

std::string done_words(const Json& payload) {
  std::string words = fmt::format("done: {}", payload.value("calculation", "work"));
  if (payload.contains("sheet"))
    words += fmt::format(" ({}.{})", payload.at("sheet").get<std::int64_t>(), payload.at("step").get<std::int64_t>());
  for (const auto& addition : payload.value("additions", Json::array())) {
    words += ", " + weight_words(addition.at("weighed")) + " of " + addition.at("substance").get<std::string>();
    if (addition.contains("planned") && addition.at("planned") != addition.at("weighed"))
      words += " (planned " + weight_words(addition.at("planned")) + ")";
    if (const auto batch = addition.value("batch", ""); !batch.empty()) words += ", batch " + batch;
  }
  for (const Json members = payload.value("volumes", Json::object()); const auto& [lot, litres] : members.items())
    words += fmt::format(", {} {:+.6g} L", lot, litres.get<double>());
  for (const auto& made : payload.value("makes", Json::array())) words += ", makes " + made.get<std::string>();
  return words;
}

}  // namespace

std::string event_words(const Entry& entry, const std::string& lot) {
  const Json payload = Json::parse(entry.payload);
  if (entry.kind == measured) {
    const auto sample = payload.value("sample", "");
    return "measured: " + readings_words(payload.at("readings")) + (sample.empty() ? "" : " (sample " + sample + ")");
  }
  if (entry.kind == kept) {
    std::string words = "planned: " + payload.at("sheet").at("recipe").at("title").get<std::string>();
    const Json readings = payload.at("readings").value(lot, Json::object());
    return words + (readings.empty() ? "" : "; measured: " + readings_words(readings));
  }
  if (entry.kind == done) return done_words(payload);
  if (entry.kind == signed_for)
    return fmt::format("sheet {} signed: {}", payload.at("sheet").get<std::int64_t>(),
                       payload.at("holds").get<bool>() ? "it holds" : "IT DOES NOT HOLD");
  return entry.kind;
}

std::vector<OpenWork> open_work(const Book& book, const std::string& lot) {
  std::vector<OpenWork> all;
  auto rows = book.data().prepare(
      "SELECT sheet, step, part, what FROM work WHERE lot = ? AND done_by IS NULL ORDER BY sheet, step, part");
  rows.with(lot);
  std::int64_t number = 0;
  Json payload;
  while (rows.step()) {
    if (rows.number(0) != number) payload = book.payload(number = rows.number(0));
    all.push_back({work_id(rows), rows.text(3), cautions_of(payload.at("sheet"), rows.number(1), rows.number(2))});
  }
  return all;
}

std::vector<SheetKept> kept_sheets(const Book& book, const std::string& lot) {
  std::vector<SheetKept> all;
  auto rows = book.data().prepare(
      "SELECT t.entry, (SELECT who FROM signature WHERE sheet = t.entry AND holds = 1 ORDER BY entry LIMIT 1) "
      "FROM touched t JOIN happened h ON h.entry = t.entry JOIN entry e ON e.number = t.entry "
      "WHERE t.lot = ? AND e.kind = ? AND h.corrected_by IS NULL ORDER BY t.moment, t.entry");
  rows.with(lot, kept);
  while (rows.step()) {
    const Entry entry = book.entry(rows.number(0));
    all.push_back({entry.number, Json::parse(entry.payload).at("sheet").at("recipe").at("title").get<std::string>(),
                   entry.who, rows.text(1)});
  }
  return all;
}

std::vector<Ancestor> ancestors(const Book& book, const LotState& lot) {
  std::vector<Ancestor> all;
  add_ancestors(book, lot, 1, 1, all);
  return all;
}

std::vector<Event> history(const Book& book, const std::string& lot) {
  std::vector<Event> all;
  // What was a slip touched the lot too, and stays to be read.
  auto rows = book.data().prepare(
      "SELECT t.entry, h.corrected_by FROM touched t JOIN happened h ON h.entry = t.entry "
      "WHERE t.lot = ? ORDER BY t.moment, t.entry");
  rows.with(lot);
  while (rows.step()) {
    Entry entry = book.entry(rows.number(0));
    std::string words = event_words(entry, lot);
    all.push_back({std::move(entry), std::move(words), rows.is_null(1) ? std::nullopt : std::optional(rows.number(1))});
  }
  return all;
}

std::string fact_words(const LotState& lot, const Input& fact) {
  const auto value = lot.value(fact);
  if (!value) return {};
  // As it was written where it was; else with as many digits as its ± has.
  if (!value->written.empty() || !(value->uncertainty > 0) || fact.kind != Kind::quantity) return shown(fact, *value);
  return print_coherent(value->number, value->uncertainty, fact.dimension, fact.unit, 0);
}

std::string origin_words(const Json& fact) {
  const auto from = fact.value("from", ""), by = fact.value("by", ""), at = short_hour(fact.value("at", ""));
  if (from == from_reading) {
    const auto sample = fact.value("sample", "");
    return "read " + at + (by.empty() ? "" : " by " + by) + (sample.empty() ? "" : ", sample " + sample);
  }
  const std::string entry = fmt::format(" (entry {})", fact.value("entry", std::int64_t(0)));
  if (from == from_forecast) return "forecast of " + by + ", " + at + entry + ": to be measured";
  return (from == from_booked ? "booked by " : "by ") + by + ", " + at + entry;
}

Json lots_json(const Book& book, const Hour& until) {
  Json all = Json::object();
  const auto open = all_open_work(book);
  each_lot(book, until, [&](const LotState& lot) {
    Json ids = Json::array();
    if (const auto work = open.find(lot.name); work != open.end()) ids = work->second;
    all[lot.name] = {{"born", lot.born}, {"facts", lot.facts}, {"open", ids}};
  });
  return {{"lots", all}};
}

std::vector<LotLine> lot_lines(const Book& book, const Hour& until) {
  std::vector<LotLine> all;
  auto open = all_open_work(book);
  each_lot(book, until, [&](const LotState& lot) {
    LotLine& line = all.emplace_back();
    line.lot = lot.name;
    line.empty = lot.is_empty();
    for (const Input* key : in_the_list) {
      const auto fact = lot.facts.find(std::string(key->name));
      const bool forecast = fact != lot.facts.end() && fact->value("from", "") == from_forecast;
      line.figures.emplace_back(key->name, fact_words(lot, *key) + (forecast ? " *" : ""));
    }
    if (const auto work = open.find(lot.name); work != open.end()) line.open = std::move(work->second);
  });
  return all;
}

std::string lots_text(const Book& book, const Hour& until, const TextStyle& style) {
  const auto lines = lot_lines(book, until);
  if (lines.empty()) return "no lots yet\n";
  Page page(style);
  std::vector<Page::Head> heads{{"lot", true}};
  for (const Input* key : in_the_list) heads.push_back({std::string(key->name)});
  heads.push_back({"open work", true});
  std::vector<std::vector<std::string>> rows;
  for (const auto& line : lines) {
    auto& row = rows.emplace_back();
    row.push_back(line.lot);
    for (const auto& figure : line.figures) row.push_back(figure.second);
    row.push_back(fmt::format("{}", fmt::join(line.open, ", ")));
  }
  page.columns(heads, rows);
  page.line("* a forecast: measure it");
  return page.text();
}

Json lot_json(const Book& book, const LotState& lot) {
  Json open = Json::array(), from = Json::array();
  for (const auto& work : open_work(book, lot.name))
    open.push_back({{"id", work.id}, {"what", work.what}, {"cautions", work.cautions}});
  for (const auto& a : ancestors(book, lot)) from.push_back({{"lot", a.lot}, {"share", a.share}, {"depth", a.depth}});
  return {{"lot", lot.name},  {"born", lot.born},  {"facts", lot.facts},
          {"made", lot.made}, {"ancestors", from}, {"open", open}};
}

std::string lot_text(const Book& book, const LotState& lot, const std::string& as_of, const TextStyle& style) {
  Page page(style);
  page.heading("LOT " + lot.name + ", as the book had it on " + as_of);
  for (const Input* key : lot::keys)
    if (const auto at = lot.facts.find(std::string(key->name)); at != lot.facts.end())
      page.row(key->name, fact_words(lot, *key), origin_words(*at));
  if (const auto parts = ancestors(book, lot); !parts.empty()) {
    page.blank();
    page.heading("MADE OF");
    for (const auto& part : parts)
      page.line(std::string(2 * static_cast<std::size_t>(part.depth), ' ') +
                fmt::format("{:.1f} % {}", 100 * part.share, part.lot));
  }
  if (const auto open = open_work(book, lot.name); !open.empty()) {
    page.blank();
    page.heading("OPEN WORK");
    for (const auto& work : open) {
      page.bullet("[ ] " + work.id, " " + work.what, 4 + work.id.size());
      for (const auto& caution : work.cautions) page.bullet("!", " " + caution, 1);
    }
  }
  return page.text();
}

Json history_json(const Book& book, const std::string& lot) {
  Json all = Json::array();
  for (const auto& event : history(book, lot)) {
    Json one{{"entry", event.entry.number},
             {"at", event.entry.at},
             {"kind", event.entry.kind},
             {"by", event.entry.who},
             {"what", event.what}};
    if (event.corrected_by) one["corrected by"] = *event.corrected_by;
    all.push_back(std::move(one));
  }
  return {{"lot", lot}, {"history", all}};
}

std::string history_text(const Book& book, const std::string& lot, const TextStyle& style) {
  Page page(style);
  page.heading("HISTORY OF LOT " + lot);
  for (const auto& [entry, what, corrected_by] : history(book, lot)) {
    std::string words =
        fmt::format("{}  {}{}", short_hour(entry.at), what, entry.who.empty() ? "" : "; by " + entry.who);
    if (corrected_by) words += fmt::format("  (NO LONGER STANDS: entry {})", *corrected_by);
    page.pair(fmt::format("{:>5}", entry.number), words, 7);
  }
  return page.text();
}

}  // namespace vatwright::book
