#include "host/book/follow.hpp"

#include "host/facts/account.hpp"
#include "host/facts/join.hpp"
#include "host/facts/pour.hpp"
#include "host/plugin/lot.hpp"
#include "host/recipe/recipe.hpp"
#include "host/sheet/fact_json.hpp"
#include "units/constants.hpp"
#include "units/parse.hpp"

#include <algorithm>
#include <memory>

namespace vatwright::book {
namespace {

bool is_account(const Input& key) { return key.behaves.account == Account::counted; }

Value litres_of(double litres) {
  Value value;
  value.number = parse_unit("L").coherent(litres);
  return value;
}

// So much more of an account.
void count_in(const Value& more, double times, Value& account) {
  account.number += times * more.number;
  for (const auto& [name, amount] : more.amounts) add_to(account.amounts, name, times * amount);
}

}  // namespace

std::set<std::string> Done::lots() const {
  std::set<std::string> all;
  if (const auto own = payload_.value("lot", ""); !own.empty()) all.insert(own);
  for (const char* member : {"volumes", "leaves"})
    for (const Json members = payload_.value(member, Json::object()); const auto& [lot, more] : members.items())
      all.insert(lot);
  for (const auto& made : payload_.value("makes", Json::array())) all.insert(made.get<std::string>());
  return all;
}

Json Done::about(std::string_view from) const {
  return {{"from", from}, {"at", entry_.at}, {"entry", entry_.number}, {"by", payload_.value("calculation", "")}};
}

std::vector<LotState> Done::follow(const std::map<std::string, LotState>& before) const {
  const auto makes = payload_.value("makes", std::set<std::string>());
  const Json leaves = payload_.value("leaves", Json::object()), volumes = payload_.value("volumes", Json::object());
  const std::string own = payload_.value("lot", "");
  std::vector<LotState> after;
  for (const auto& [name, state] : before) {
    if (makes.contains(name)) continue;
    LotState lot = state;
    const auto litres = lot.litres();
    const double drawn = volumes.value(name, 0.0), poured = name == own ? payload_.value("poured", 0.0) : 0.0;
    // Drawn from or joined to first, then poured into.
    if (poured != 0 && litres && *litres + drawn > 0) pour_in(*litres + drawn, *litres + drawn + poured, lot);
    if (name == own) enter(litres, lot);
    if (leaves.contains(name)) leave(leaves.at(name), lot);
    if (litres && drawn + poured != 0) {
      constexpr double slack = 1e-9;
      const double left = *litres + drawn + poured;
      lot.set(lot::volume, litres_of(left > slack * *litres ? left : 0), about(from_booked));
    }
    after.push_back(std::move(lot));
  }
  for (const auto& name : makes) {
    LotState made{name, entry_.number, nullptr, Json::object()};
    if (leaves.contains(name)) {
      leave(leaves.at(name), made);
      if (const auto volume = leaves.at(name).find(std::string(lot::volume.name)); volume != leaves.at(name).end())
        made.set(lot::volume, fact_of(lot::volume, *volume), about(from_booked));
    }
    join(before, made);
    after.push_back(std::move(made));
  }
  return after;
}

// Accounts and volumes follow from the book itself, not from what the sheet took them for.
void Done::leave(const Json& leaves, LotState& lot) const {
  for (const auto& [name, left] : leaves.items()) {
    const Input* key = find_lot_key(name);
    if (key == nullptr || key == &lot::volume || is_account(*key)) continue;
    if (left.is_null())
      lot.facts.erase(name);
    else
      lot.set(*key, fact_of(*key, left), about(left.value("from", std::string(from_booked))));
  }
}

void Done::pour_in(double before, double after, LotState& lot) const {
  const Poured poured{coherent<Volume>(litres_of(before).number), coherent<Volume>(litres_of(after).number), {}};
  const Analysis known = analysis_of(lot);
  for (const auto& [name, value] : known) {
    const Input& key = *find_lot_key(name);
    if (&key == &lot::volume || key.behaves.thins == Thins::no) continue;
    if (const auto then = facts::thinned(key, value, known, poured))
      lot.set(key, *then, about(is_account(key) ? from_booked : from_forecast));
    else
      lot.facts.erase(name);
  }
}

void Done::enter(std::optional<double> before, LotState& lot) const {
  const double reckoned_for = payload_.value("for", 0.0);
  const double times = before && *before > 0 && reckoned_for > 0 ? reckoned_for / *before : 1;
  for (const Json members = payload_.value("enters", Json::object()); const auto& [name, more] : members.items()) {
    const Input* key = find_lot_key(name);
    if (key == nullptr || !is_account(*key))
      throw InputError("an account '" + name + "' that nobody counts", "a newer version may know it");
    auto account = lot.value(*key);
    if (!account) {
      account.emplace();
      account->silent.push_back(lot.name);  // what is entered into an account that nobody stated does not state it
    }
    account->written.clear();
    count_in(fact_of(*key, more), times, *account);
    lot.set(*key, *account, about(from_booked));
  }
}

// What went into a new lot, in litres.
std::map<std::string, double> Done::drawn() const {
  std::map<std::string, double> parts;
  for (const Json members = payload_.value("volumes", Json::object()); const auto& [lot, litres] : members.items())
    if (litres.get<double>() < 0) parts.emplace(lot, -litres.get<double>());
  if (const auto own = payload_.value("lot", ""); parts.empty() && !own.empty()) parts.emplace(own, 1);
  return parts;
}

void Done::join(const std::map<std::string, LotState>& before, LotState& made) const {
  double all = 0;
  const auto drawn_from = drawn();
  for (const auto& [lot, litres] : drawn_from) all += litres;
  made.made = about(from_booked);
  made.made.erase("from");
  Json& of = made.made["of"] = Json::object();
  std::vector<Row> rows;
  std::vector<double> shares;
  for (const auto& [name, litres] : drawn_from) {
    of[name] = trimmed(litres / all);
    Row& row = rows.emplace_back();
    row.name = name;
    const auto at = before.find(name);
    row.lot = std::make_shared<const Analysis>(at == before.end() ? Analysis() : analysis_of(at->second));
    shares.push_back(litres / all);
  }
  std::vector<facts::Part> parts;
  for (std::size_t i = 0; i < rows.size(); ++i) parts.push_back({&rows[i], shares[i], {}});
  for (const Input* key : lot::keys)
    if (is_account(*key))
      if (auto joined = facts::join(*key, parts, 1); joined.value) made.set(*key, *joined.value, about(from_booked));
}

}  // namespace vatwright::book
