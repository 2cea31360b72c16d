#include "host/book/work.hpp"

#include "host/book/follow.hpp"
#include "host/plugin/lot.hpp"
#include "host/recipe/recipe.hpp"
#include "host/sheet/fact_json.hpp"
#include "host/yaml/document.hpp"
#include "units/expect.hpp"
#include "units/nearest.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <map>
#include <optional>

namespace vatwright::book {
namespace {

using Facts = std::map<std::string, Value, std::less<>>;

constexpr char such_id[] = "'vatwright book lots' and 'vatwright book lot LOT' show the open work, such as 12.2";

std::vector<std::int64_t> numbers_of(const std::string& id) {
  std::vector<std::int64_t> out;
  for (std::size_t at = 0; at <= id.size();) {
    const auto dot = std::min(id.find('.', at), id.size());
    std::int64_t number = 0;
    const auto* end = id.data() + dot;
    const auto read = std::from_chars(id.data() + at, end, number);
    constexpr std::size_t most = 3;
    if (read.ec != std::errc() || read.ptr != end || number < 0 || out.size() == most)
      throw BadInput("expected the number of a sheet, of a step or of an addition, read " + in_quotes(id) + "\n  " +
                     such_id);
    out.push_back(number);
    at = dot + 1;
  }
  return out;
}

// "tartaric acid=1.2 kg" and "1.2 kg": the name, or none, and the rest.
std::pair<std::string, std::string> named(const std::string& text) {
  const auto equals = text.find('=');
  if (equals == std::string::npos) return {{}, text};
  return {text.substr(0, equals), text.substr(equals + 1)};
}

// What a sheet makes of a lot, step by step.
class Walk {
 public:
  explicit Walk(const Json& sheet) {
    for (const auto& [lot, of_sheet] : sheet.at("lots").items())
      if (!of_sheet.at("before").empty()) take(lot, of_sheet.at("before"));
  }
  void take(const std::string& lot, const Json& leaves) {
    auto& facts = lots_[lot];
    for (const auto& [fact, left] : leaves.items()) {
      const Input* key = find_lot_key(fact);
      if (key == nullptr) continue;
      if (left.is_null())
        facts.erase(fact);
      else
        facts.insert_or_assign(fact, fact_of(*key, left));
    }
  }
  void take(const Json& step) {
    for (const auto& [lot, leaves] : step.at("leaves").items()) take(lot, leaves);
  }
  bool has(const std::string& lot) const { return lots_.contains(lot); }
  const Value* find(const std::string& lot, const Input& key) const {
    const auto at = lots_.find(lot);
    if (at == lots_.end()) return nullptr;
    const auto fact = at->second.find(key.name);
    return fact == at->second.end() ? nullptr : &fact->second;
  }

 private:
  std::map<std::string, Facts> lots_;
};

double litres(double coherent) { return trimmed(parse_unit("L").number(coherent)); }
double litres(const Json& figure) {
  return litres(parse_unit(figure.at("unit").get<std::string>()).coherent(figure.at("value").get<double>()));
}

// One step, and those of its additions that were made.
class StepDone {
 public:
  StepDone(const Json& step, const Walk& before, std::int64_t sheet, std::int64_t number,
           std::vector<std::int64_t> parts)
      : step_(step),
        before_(before),
        own_(step.at("lot").get<std::string>()),
        sheet_(sheet),
        number_(number),
        parts_(std::move(parts)) {}

  // Marks off in `taken` what it uses.
  void weigh(const Report& report, std::vector<bool>& taken_weights, std::vector<bool>& taken_batches) {
    const Json& planned = step_.at("additions");
    for (const auto part : parts_) {
      if (part == 0) continue;
      const Json& addition = planned.at(static_cast<std::size_t>(part - 1));
      Json one{{"substance", addition.at("substance")},
               {"strength", addition.value("strength", "")},
               {"planned", amount(addition)}};
      one["weighed"] = one["planned"];
      const std::string substance = addition.at("substance");
      if (const auto* text = said(report.weighed, substance, taken_weights))
        one["weighed"] = weighed_as(*text, addition);
      if (const auto* batch = said(report.batches, substance, taken_batches)) {
        check_text("batch", named(*batch).second);
        one["batch"] = named(*batch).second;
      }
      additions_.push_back(std::move(one));
    }
  }

  bool has_additions() const { return !additions_.empty(); }

  // `earlier`: what share of the step was done before.
  NewEntry entry(double earlier) const {
    const double share = share_done();
    Json payload{{"sheet", sheet_},
                 {"step", number_},
                 {"parts", parts_},
                 {"calculation", step_.at("calculation")},
                 {"lot", own_}};
    payload["share"] = trimmed(share);
    if (!additions_.empty()) payload["additions"] = additions_;
    if (const Json& poured = step_.at("poured"); !poured.is_null())
      payload["poured"] = trimmed(share * poured_litres());
    if (const Value* volume = before_.find(own_, lot::volume)) payload["for"] = litres(volume->number);
    Json volumes = Json::object(), makes = Json::array();
    for (const auto& [lot, leaves] : step_.at("leaves").items()) {
      if (earlier > 0) break;  // drawn and made with the first of its additions
      if (!before_.has(lot)) makes.push_back(lot);
      const auto at = leaves.find(std::string(lot::volume.name));
      const Value* volume = before_.find(lot, lot::volume);
      if (at == leaves.end() || at->is_null() || volume == nullptr) continue;
      const double grows = litres(*at) - litres(volume->number) - (lot == own_ ? poured_litres() : 0);
      constexpr double rounding = 1e-9;
      if (std::abs(grows) > rounding * litres(volume->number)) volumes[lot] = trimmed(grows);
    }
    if (!volumes.empty()) payload["volumes"] = volumes;
    if (!makes.empty()) payload["makes"] = makes;
    if (const Json enters = entered(); !enters.empty()) payload["enters"] = enters;
    payload["leaves"] = leaves(share + earlier);
    return {std::string(done), {}, {}, std::move(payload)};
  }

 private:
  static Json amount(const Json& addition) {
    return {{"value", addition.at("amount").at("value")}, {"unit", addition.at("amount").at("unit")}};
  }

  // The text for that substance: by its name, or for all when there is but one.
  const std::string* said(const std::vector<std::string>& texts, const std::string& substance,
                          std::vector<bool>& taken) const {
    for (std::size_t i = 0; i < texts.size(); ++i) {
      const auto [name, rest] = named(texts[i]);
      if (name != substance && !(name.empty() && parts_.size() == 1)) continue;
      taken[i] = true;
      return &texts[i];
    }
    return nullptr;
  }

  static Json weighed_as(const std::string& text, const Json& addition) {
    const std::string unit = addition.at("amount").at("unit"), amount = named(text).second;
    try {
      const Unit planned = parse_unit(unit);
      const Measured measured = expect(parse(amount), {planned.dimension, planned.counted, unit}, amount);
      if (measured.value < 0)
        throw InputError("a weight below nothing: " + in_quotes(amount), "write what the balance showed");
      return {{"value", trimmed(planned.number(measured.value))}, {"unit", unit}};
    } catch (const InputError& error) {
      throw BadInput(fmt::format("what was weighed of {}: {}\n  {}", addition.at("substance").get<std::string>(),
                                 error.what(), error.hint()));
    }
  }

  double poured_litres() const {
    const Json& poured = step_.at("poured");
    return poured.is_null() ? 0 : litres(poured.at("after")) - litres(poured.at("before"));
  }

  // Of what the step plans in all; of one substance, or of all when it is not named.
  double share_done(std::string_view substance = {}) const {
    double planned = 0, weighed = 0;
    for (const auto& addition : step_.at("additions"))
      if (substance.empty() || addition.at("substance") == substance)
        planned += addition.at("amount").at("value").get<double>();
    for (const auto& addition : additions_)
      if (substance.empty() || addition.at("substance") == substance)
        weighed += addition.at("weighed").at("value").get<double>();
    return planned > 0 ? weighed / planned : 1;
  }

  bool adds(std::string_view substance) const {
    return std::any_of(step_.at("additions").begin(), step_.at("additions").end(),
                       [&](const Json& one) { return one.at("substance") == substance; });
  }

  // What goes into the accounts of the lot, beyond what they are thinned by.
  Json entered() const {
    Json enters = Json::object();
    const auto own = step_.at("leaves").find(own_);
    if (own == step_.at("leaves").end() || !before_.has(own_)) return enters;
    const Json& poured = step_.at("poured");
    const double thinner = poured.is_null() ? 1 : litres(poured.at("before")) / litres(poured.at("after"));
    for (const auto& [fact, left] : own->items()) {
      const Input* key = find_lot_key(fact);
      if (key == nullptr || key->behaves.account == Account::none || left.is_null()) continue;
      Value more = fact_of(*key, left);
      more.silent.clear();
      const double stays = key->behaves.thins == Thins::yes ? thinner : 1;
      const Value* before = before_.find(own_, *key);
      more.number = share_done() * (more.number - (before == nullptr ? 0 : stays * before->number));
      for (auto& [name, amount] : more.amounts) {
        double there = 0;
        if (before != nullptr)
          for (const auto& [old, much] : before->amounts)
            if (old == name) there = stays * much;
        amount = (adds(name) ? share_done(name) : share_done()) * (amount - there);
      }
      constexpr double rounding = 1e-9;  // of what is carried on
      std::erase_if(more.amounts, [&](const auto& one) { return std::abs(one.second) < rounding * 1e-3; });
      const double carried = before == nullptr ? 0 : std::abs(before->number);
      if (std::abs(more.number) <= rounding * carried) more.number = 0;
      if (more.number != 0 || !more.amounts.empty()) enters[fact] = fact_json(*key, more);
    }
    return enters;
  }

  // A forecast for what was planned, drawn out in a straight line to what was done.
  Json leaves(double share) const {
    Json all = Json::object();
    for (const auto& [lot, facts] : step_.at("leaves").items()) {
      Json& of_lot = all[lot] = Json::object();
      for (const auto& [fact, left] : facts.items()) {
        const Input* key = find_lot_key(fact);
        const bool booked_here =
            before_.has(lot) && key != nullptr && (key == &lot::volume || key->behaves.account != Account::none);
        if (booked_here) continue;
        of_lot[fact] = left;
        const Value* before = key == nullptr ? nullptr : before_.find(lot, *key);
        if (left.is_null() || lot != own_ || before == nullptr || key->kind != Kind::quantity || share == 1) continue;
        Value after = fact_of(*key, left);
        after.number = before->number + share * (after.number - before->number);
        const auto from = left.at("from");
        of_lot[fact] = fact_json(*key, after);
        of_lot[fact]["from"] = from;
      }
    }
    return all;
  }

  const Json& step_;
  const Walk& before_;
  std::string own_;
  std::int64_t sheet_, number_;
  std::vector<std::int64_t> parts_;
  Json additions_ = Json::array();
};

// The book has to have the wine that the work takes.
void refuse_impossible(const Book& book, const NewEntry& entry, std::map<std::string, LotState>& lots,
                       std::int64_t at) {
  const Json& payload = entry.payload;
  const Entry so_far{0, entry.kind, {}, {}, {}, {}, {}, {}};
  const Done work(so_far, payload);
  const auto makes = payload.value("makes", std::set<std::string>());
  const auto known = [&](const std::string& lot) -> LotState* {
    if (const auto there = lots.find(lot); there != lots.end()) return &there->second;
    auto state = book.lot(lot, at);
    return state ? &lots.emplace(lot, std::move(*state)).first->second : nullptr;
  };
  const std::string what =
      fmt::format("{}.{} ({})", payload.at("sheet").get<std::int64_t>(), payload.at("step").get<std::int64_t>(),
                  payload.at("calculation").get<std::string>());
  std::map<std::string, LotState> before;
  for (const auto& lot : work.lots()) {
    const LotState* state = known(lot);
    if (makes.contains(lot)) {
      if (state != nullptr && !state->is_empty())
        throw BadInput(
            fmt::format("{} makes a lot {}, and the book has one that is not empty\n  give the new lot another name in "
                        "the recipe, or "
                        "enter what became of the old one",
                        what, lot));
    } else if (state == nullptr) {
      throw BadInput(fmt::format(
          "{} is on lot {}, which the book does not have at that time\n  report the step that makes it first", what,
          lot));
    }
    if (state != nullptr) before.emplace(lot, *state);
  }
  for (const Json members = payload.value("volumes", Json::object()); const auto& [lot, grows] : members.items()) {
    const auto has = before.contains(lot) ? before.at(lot).litres() : std::nullopt;
    constexpr double slack = 1e-6;
    if (has && *has + grows.get<double>() < -slack * *has)
      throw BadInput(
          fmt::format("{} takes {:.6g} L out of lot {}, in which the book has {:.6g} L\n  measure its volume, or "
                      "correct what was entered",
                      what, -grows.get<double>(), lot, *has));
  }
  for (auto& state : work.follow(before)) lots.insert_or_assign(state.name, state);
}

std::vector<std::int64_t> open_parts(const Book& book, std::int64_t sheet, std::int64_t step,
                                     std::optional<std::int64_t> part) {
  std::vector<std::int64_t> parts;
  auto rows =
      book.data().prepare("SELECT part FROM work WHERE sheet = ? AND step = ? AND done_by IS NULL ORDER BY part");
  rows.with(sheet, step);
  while (rows.step())
    if (!part || *part == rows.number(0)) parts.push_back(rows.number(0));
  return parts;
}

// What share of the step earlier entries did.
double done_before(const Book& book, std::int64_t sheet, std::int64_t step) {
  double share = 0;
  auto rows =
      book.data().prepare("SELECT DISTINCT done_by FROM work WHERE sheet = ? AND step = ? AND done_by IS NOT NULL");
  rows.with(sheet, step);
  while (rows.step()) share += book.payload(rows.number(0)).value("share", 0.0);
  return share;
}

[[noreturn]] void nothing_open(const Book& book, const Report& report, std::int64_t sheet) {
  const auto entry = book.entry(sheet);
  if (entry.kind != kept)
    throw BadInput(fmt::format("entry {} is no sheet: it is {}\n  {}", sheet, entry.kind, such_id));
  if (const auto other = book.corrected_by(sheet))
    throw BadInput(fmt::format("sheet {} no longer stands: entry {} took its place\n  {}", sheet, *other, such_id));
  auto rows = book.data().prepare("SELECT step, part, done_by FROM work WHERE sheet = ? ORDER BY step, part");
  rows.with(sheet);
  std::string list;
  while (rows.step())
    list += fmt::format("{}{}.{}{}{}", list.empty() ? "" : ", ", sheet, rows.number(0),
                        rows.number(1) > 0 ? fmt::format(".{}", rows.number(1)) : "",
                        rows.is_null(2) ? " (open)" : fmt::format(" (done: entry {})", rows.number(2)));
  throw BadInput(fmt::format("{}: there is no open work of that number\n  {}", report.id,
                             list.empty() ? "the sheet asks for nothing to be done" : "its work: " + list));
}

void refuse_unused(const std::vector<std::string>& texts, const std::vector<bool>& taken, std::string_view option) {
  for (std::size_t i = 0; i < texts.size(); ++i)
    if (!taken[i])
      throw BadInput(
          fmt::format("{} {}: it is not clear which addition that is\n  write it as SUBSTANCE=..., with a substance "
                      "that this work adds",
                      option, in_quotes(texts[i])));
}

}  // namespace

std::vector<NewEntry> report_done(const Book& book, const Report& report, std::int64_t at) {
  const auto numbers = numbers_of(report.id);
  const std::int64_t sheet_number = numbers.front();
  const Json payload = book.payload(sheet_number);
  std::vector<NewEntry> out;
  std::vector<bool> weights(report.weighed.size()), batches(report.batches.size());
  std::map<std::string, LotState> lots;
  if (payload.contains("sheet") && payload.at("sheet").is_object()) {
    const Json& sheet = payload.at("sheet");
    Walk walk(sheet);
    std::int64_t number = 0;
    for (const auto& step : sheet.at("steps")) {
      ++number;
      const bool asked = numbers.size() == 1 || numbers[1] == number;
      auto parts =
          asked ? open_parts(book, sheet_number, number, numbers.size() == 3 ? std::optional(numbers[2]) : std::nullopt)
                : std::vector<std::int64_t>();
      if (!parts.empty()) {
        StepDone one(step, walk, sheet_number, number, std::move(parts));
        one.weigh(report, weights, batches);
        out.push_back(one.entry(done_before(book, sheet_number, number)));
        refuse_impossible(book, out.back(), lots, at);
      }
      walk.take(step);
    }
  }
  if (out.empty()) nothing_open(book, report, sheet_number);
  refuse_unused(report.weighed, weights, "--weighed");
  refuse_unused(report.batches, batches, "--batch");
  return out;
}

}  // namespace vatwright::book
