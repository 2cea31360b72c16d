#include "host/book/lot_state.hpp"

#include "host/plugin/lot.hpp"
#include "host/recipe/recipe.hpp"
#include "host/sheet/fact_json.hpp"
#include "units/parse.hpp"

#include <cmath>

namespace vatwright::book {

std::optional<double> LotState::litres() const {
  const auto known = value(lot::volume);
  if (!known) return std::nullopt;
  return parse_unit("L").number(known->number);
}

bool LotState::is_empty() const {
  constexpr double a_drop = 1e-6;  // litres: what is left by rounding
  const auto volume = litres();
  return volume && *volume <= a_drop;
}

std::optional<Value> LotState::value(const Input& fact) const {
  const auto at = facts.find(std::string(fact.name));
  if (at == facts.end()) return std::nullopt;
  Value known = fact_of(fact, *at);
  if (const auto written = at->find("written"); written != at->end() && written->is_string())
    known.written = written->get<std::string>();
  return known;
}

void LotState::set(const Input& fact, const Value& known, const Json& about) {
  Json json = fact_json(fact, known);
  if (json.contains("value") && json["value"].is_number() && !std::isfinite(json["value"].get<double>()))
    throw InputError("a figure that is not finite", "look at the volumes and at what was weighed");
  if (!known.written.empty()) json["written"] = known.written;
  json.update(about);
  facts[std::string(fact.name)] = std::move(json);
}

std::string LotState::text() const {
  return Json{{"born", born}, {"made", made}, {"facts", facts}}.dump(-1, ' ', false, Json::error_handler_t::replace);
}

LotState LotState::of(const std::string& lot, const std::string& text) {
  const Json json = Json::parse(text);
  return {lot, json.at("born").get<std::int64_t>(), json.at("made"), json.at("facts")};
}

Analysis analysis_of(const LotState& lot) {
  Analysis all;
  for (const Input* key : lot::keys)
    if (auto known = lot.value(*key)) all.emplace(key->name, std::move(*known));
  return all;
}

}  // namespace vatwright::book
