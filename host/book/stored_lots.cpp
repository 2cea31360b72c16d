#include "host/book/stored_lots.hpp"

#include "host/plugin/lot.hpp"
#include "host/yaml/document.hpp"

#include <fmt/format.h>

namespace vatwright::book {
namespace {

// The record of a lot: {"at", "entry", "hash", "facts"}.
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
  stored.as_of = fmt::format("as the book had it on {} (entry {})", short_hour(record.at("at").get<std::string>()),
                             record.at("entry").get<std::int64_t>());
  stored.record = record.dump();
  return stored;
}

}  // namespace

StoredLot BookLots::find(const std::string& name) const try {
  const Book book(file_, Book::To::read);
  const auto lot = book.known_lot(name, at_.seconds);
  const auto last = book.entry(book.last());
  return of_record(name, {{"at", at_.written}, {"entry", last.number}, {"hash", last.hash}, {"facts", lot.facts}});
} catch (const BadInput& error) {
  const std::string what = error.what();
  const auto end = what.find("\n  ");
  throw InputError(what.substr(0, end),
                   end == std::string::npos ? "look with 'vatwright book lots'" : what.substr(end + 3));
} catch (const sql::Trouble& trouble) {
  throw InputError(file_.string() + ": " + trouble.what(), "look with 'vatwright book check'");
}

SheetLots::SheetLots(const Json& lots) {
  for (const auto& [name, lot] : lots.items())
    if (lot.is_object() && lot.contains("book")) records_.emplace(name, lot.at("book"));
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
