#include "host/book/index.hpp"

#include "host/book/follow.hpp"
#include "host/recipe/lot_name.hpp"
#include "host/recipe/recipe.hpp"
#include "host/sheet/fact_json.hpp"

#include <fmt/format.h>

#include <set>

namespace vatwright::book {
namespace {

void check_name(const std::string& lot) {
  if (lot.empty()) throw InputError("a lot without a name", "give each lot a name");
  check_text("lot", lot);
  check_lot_name(lot);
}

Json about_reading(const Entry& entry, const Json& sample) {
  Json about{{"from", from_reading}, {"at", entry.at}, {"entry", entry.number}};
  if (!entry.who.empty()) about["by"] = entry.who;
  if (sample.is_string() && !sample.get<std::string>().empty()) about["sample"] = sample;
  return about;
}

const Input& key_of(const std::string& name) {
  const Input* key = find_lot_key(name);
  if (key == nullptr) throw InputError("a reading of '" + name + "', which no lot has", "a newer version may know it");
  return *key;
}

[[noreturn]] void refuse_shape(const Entry& entry) {
  throw InputError("an entry '" + entry.kind + "' that does not say what such an entry has to",
                   "it was not made by vatwright");
}

std::set<std::string> lots_of(const Entry& entry, const Json& payload) {
  if (entry.kind == done) return Done(entry, payload).lots();
  if (entry.kind == measured) return {payload.at("lot").get<std::string>()};
  return payload.value("lots", std::set<std::string>());
}

}  // namespace

Index::Index(const sql::Database& database)
    : find_(database.prepare("SELECT s.facts FROM lot l JOIN state s ON s.id = l.state WHERE l.name = ?")),
      put_state_(database.prepare("INSERT INTO state(lot, moment, entry, volume, facts) VALUES(?, ?, ?, ?, ?) "
                                  "ON CONFLICT(lot, moment, entry) DO UPDATE SET volume=excluded.volume, "
                                  "facts=excluded.facts RETURNING id")),
      put_lot_(database.prepare("INSERT INTO lot(name, state) VALUES(?, ?) "
                                "ON CONFLICT(name) DO UPDATE SET state=excluded.state")),
      touch_(database.prepare("INSERT OR IGNORE INTO touched(lot, moment, entry) VALUES(?, ?, ?)")),
      put_work_(database.prepare("INSERT INTO work(sheet, step, part, moment, lot, what) VALUES(?, ?, ?, ?, ?, ?)")),
      do_work_(database.prepare("UPDATE work SET done_by = ? WHERE sheet = ? AND step = ? AND part = ?")),
      put_weighed_(database.prepare("INSERT INTO weighed(entry, line, moment, lot, substance, strength, batch, amount, "
                                    "unit) VALUES(?, ?, ?, ?, ?, ?, ?, ?, ?)")),
      put_foretold_(database.prepare("INSERT INTO foretold(entry, fact, moment, lot, calculation, unit, forecast, "
                                     "measured) VALUES(?, ?, ?, ?, ?, ?, ?, ?)")),
      put_signature_(
          database.prepare("INSERT INTO signature(entry, moment, sheet, who, holds) VALUES(?, ?, ?, ?, ?)")) {}

void Index::apply(const Entry& entry, std::int64_t moment, const Json& payload) {
  moment_ = moment;
  try {
    if (entry.kind == kept) apply_kept(entry, payload);
    if (entry.kind == measured) apply_measured(entry, payload);
    if (entry.kind == done) apply_done(entry, payload);
    if (entry.kind == signed_for) apply_signed(entry, payload);
  } catch (const Json::exception&) {
    refuse_shape(entry);
  }
}

std::optional<LotState> Index::find(const std::string& lot) {
  if (!find_.with(lot).step()) return std::nullopt;
  LotState state = LotState::of(lot, find_.text(0));
  find_.step();
  return state;
}

void Index::touch(const Entry& entry, std::int64_t moment, const Json& payload) try {
  for (const auto& lot : lots_of(entry, payload)) {
    check_name(lot);
    touch_.with(lot, moment, entry.number).run();
  }
} catch (const Json::exception&) {
  refuse_shape(entry);
}

void Index::put(const Entry& entry, const LotState& lot) {
  const auto litres = lot.litres();
  if (litres)
    put_state_.with(lot.name, moment_, entry.number, *litres, lot.text());
  else
    put_state_.with(lot.name, moment_, entry.number, nullptr, lot.text());
  put_state_.step();
  const auto id = put_state_.number(0);
  put_state_.run();
  put_lot_.with(lot.name, id).run();
}

void Index::read(const Entry& entry, const std::string& lot, const Json& readings, const Json& sample) {
  auto before = find(lot);
  // What comes into an empty vessel has nothing of what was in it.
  const bool begins = !before || before->is_empty();
  LotState state = begins ? LotState{lot, entry.number, nullptr, Json::object()} : std::move(*before);
  for (const auto& [name, reading] : readings.items()) {
    const Input& key = key_of(name);
    Value value = fact_of(key, reading);
    if (reading.contains("written")) value.written = reading["written"].get<std::string>();
    if (const auto known = state.facts.find(name);
        known != state.facts.end() && known->value("from", "") == from_forecast && key.kind == Kind::quantity)
      put_foretold_
          .with(entry.number, name, moment_, lot, known->value("by", ""), known->at("unit").get<std::string>(),
                known->at("value").get<double>(), trimmed(fact_json(key, value).at("value").get<double>()))
          .run();
    state.set(key, value, about_reading(entry, sample));
  }
  put(entry, state);
}

void Index::apply_measured(const Entry& entry, const Json& payload) {
  read(entry, payload.at("lot").get<std::string>(), payload.at("readings"), payload.value("sample", Json()));
}

void Index::apply_kept(const Entry& entry, const Json& payload) {
  for (const auto& [lot, readings] : payload.at("readings").items())
    if (!readings.empty()) read(entry, lot, readings, Json());
  for (const auto& work : payload.at("work"))
    put_work_
        .with(entry.number, work.at("step").get<std::int64_t>(), work.at("part").get<std::int64_t>(), moment_,
              work.at("lot").get<std::string>(), work.at("what").get<std::string>())
        .run();
}

void Index::apply_done(const Entry& entry, const Json& payload) {
  const Done work(entry, payload);
  std::map<std::string, LotState> lots;
  for (const auto& name : work.lots())
    if (auto state = find(name)) lots.emplace(name, std::move(*state));
  for (const auto& state : work.follow(lots)) put(entry, state);
  if (payload.contains("sheet"))
    for (const auto& part : payload.at("parts"))
      do_work_
          .with(entry.number, payload.at("sheet").get<std::int64_t>(), payload.at("step").get<std::int64_t>(),
                part.get<std::int64_t>())
          .run();
  std::int64_t line = 0;
  for (const auto& addition : payload.value("additions", Json::array())) {
    const Json& amount = addition.at("weighed");
    put_weighed_
        .with(entry.number, ++line, moment_, payload.value("lot", ""), addition.at("substance").get<std::string>(),
              addition.value("strength", ""), addition.value("batch", ""), amount.at("value").get<double>(),
              amount.at("unit").get<std::string>())
        .run();
  }
}

void Index::apply_signed(const Entry& entry, const Json& payload) {
  put_signature_
      .with(entry.number, moment_, payload.at("sheet").get<std::int64_t>(), entry.who,
            payload.at("holds").get<bool>() ? 1 : 0)
      .run();
}

}  // namespace vatwright::book
