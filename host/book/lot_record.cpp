#include "host/book/lot_record.hpp"

#include "host/plugin/lot.hpp"
#include "host/recipe/recipe.hpp"
#include "host/sheet/fact_json.hpp"
#include "host/yaml/document.hpp"
#include "units/parse.hpp"

#include <fmt/format.h>

namespace vatwright::book {

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
