#include "host/book/stored_lots.hpp"

#include "host/book/learn.hpp"
#include "host/book/went_in.hpp"
#include "host/plugin/lot.hpp"
#include "host/recipe/recipe.hpp"
#include "host/sheet/fact_json.hpp"
#include "host/yaml/document.hpp"
#include "units/parse.hpp"

#include <fmt/format.h>

namespace vatwright::book {
namespace {

// Of fewer nothing is learned (common practice, no source).
constexpr std::size_t fewest_cases = 5;

// The record of a lot: {"at", "entry", "hash", "facts", "went in"}.
StoredLot of_record(const std::string& name, const Json& record) {
  LotState lot;
  lot.name = name;
  lot.facts = record.at("facts");
  StoredLot stored;
  for (const Input* key : lot::keys) {
    auto known = lot.value(*key);
    if (!known) continue;
    stored.analysis.emplace(key, std::move(*known));
    if (lot.facts.at(std::string(key->name)).value("from", "") == from_forecast) stored.foretold.push_back(key);
  }
  stored.went_in = record.value("went in", std::vector<std::string>());
  stored.as_of = fmt::format("as the book had it on {} (entry {})", short_hour(record.at("at").get<std::string>()),
                             record.at("entry").get<std::int64_t>());
  stored.record = record.dump();
  return stored;
}

// The record of lessons: {"at", "entry", "hash", "forecasts": [{"calculation", "fact", "unit", "cases", "bias",
// "off"}]}.
Lessons of_lessons(const Json& record) {
  Lessons all;
  for (const auto& one : record.at("forecasts")) {
    const Input* fact = find_lot_key(one.at("fact").get<std::string>());
    if (fact == nullptr) continue;
    const double slope = parse_unit(one.at("unit").get<std::string>()).slope(0);
    all.forecasts.push_back({one.at("calculation").get<std::string>(), fact, one.at("cases").get<std::size_t>(),
                             one.at("bias").get<double>() * slope, one.at("off").get<double>() * slope});
  }
  all.record = record.dump();
  return all;
}

// Bad news of the book where a recipe asks for it, so that the recipe's line can be shown beside it.
template <class Ask>
auto asked_by_recipe(const std::filesystem::path& file, Ask ask) try {
  return ask(Book(file, Book::To::read));
} catch (const BadInput& error) {
  const std::string what = error.what();
  const auto end = what.find("\n  ");
  throw InputError(what.substr(0, end),
                   end == std::string::npos ? "look with 'vatwright book lots'" : what.substr(end + 3));
} catch (const sql::Trouble& trouble) {
  throw InputError(file.string() + ": " + trouble.what(), "look with 'vatwright book check'");
}

}  // namespace

StoredLot BookLots::find(const std::string& name) const {
  return asked_by_recipe(file_, [&](const Book& book) {
    const auto lot = book.known_lot(name, at_.seconds);
    const auto last = book.entry(book.last());
    Json record{{"at", at_.written}, {"entry", last.number}, {"hash", last.hash}, {"facts", lot.facts}};
    if (const auto substances = went_in(book, lot, at_.seconds); !substances.empty()) record["went in"] = substances;
    return of_record(name, record);
  });
}

Lessons BookLots::lessons() const {
  return asked_by_recipe(file_, [&](const Book& book) {
    const auto last = book.find(book.last()).value_or(Entry{});
    Json forecasts = Json::array();
    for (const auto& lesson : book::lessons(book, at_.seconds))
      if (lesson.cases.size() >= fewest_cases)
        forecasts.push_back({{"calculation", lesson.calculation},
                             {"fact", lesson.fact},
                             {"unit", lesson.unit},
                             {"cases", lesson.cases.size()},
                             {"bias", trimmed(lesson.bias())},
                             {"off", trimmed(lesson.off())}});
    return of_lessons({{"at", at_.written}, {"entry", last.number}, {"hash", last.hash}, {"forecasts", forecasts}});
  });
}

SheetLots::SheetLots(const Json& sheet) {
  const Json lots = sheet.value("lots", Json::object()), uncertainty = sheet.value("uncertainty", Json::object());
  for (const auto& [name, lot] : lots.items())
    if (lot.is_object() && lot.contains("book")) records_.emplace(name, lot.at("book"));
  if (uncertainty.is_object()) lessons_ = uncertainty.value("book", Json());
}

Lessons SheetLots::lessons() const try { return of_lessons(lessons_); } catch (const Json::exception&) {
  throw InputError("the sheet does not carry what the book had of this cellar's forecasts", "run its recipe again");
}

StoredLot SheetLots::find(const std::string& name) const try {
  const auto at = records_.find(name);
  if (at == records_.end())
    throw InputError("the sheet does not carry what the book had of lot '" + name + "'", "run its recipe again");
  return of_record(name, at->second);
} catch (const Json::exception&) {
  throw InputError("what the sheet carries of lot '" + name + "' was changed", "run its recipe again");
}

}  // namespace vatwright::book
