#include "host/book/keep.hpp"

#include "host/plugin/lot.hpp"
#include "host/recipe/recipe.hpp"
#include "host/sheet/fact_json.hpp"
#include "host/sheet/json_text.hpp"
#include "host/sheet/writers.hpp"
#include "host/yaml/document.hpp"
#include "units/parse.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

namespace vatwright::book {
namespace {

bool checks_hold(const Json& step) {
  return std::all_of(step.at("checks").begin(), step.at("checks").end(),
                     [](const Json& check) { return check.at("holds").get<bool>(); });
}

// A lot that is made of no wine is a prediction.
bool makes_of_nothing(const Json& sheet, const Json& step) {
  for (const auto& [lot, leaves] : step.at("leaves").items()) {
    const auto at = sheet.at("lots").find(lot);
    const bool made = at == sheet.at("lots").end() || at->at("before").empty();
    if (made && !leaves.contains(std::string(lot::volume.name)) && leaves.contains(std::string(lot::ph.name)))
      return true;
  }
  return false;
}

std::string amount_words(const Json& amount) {
  const double number = amount.at("value").get<double>();
  const std::string unit = amount.at("unit");
  const Shown shown = unit == "g" ? readable(coherent<Mass>(parse_unit("g").coherent(number)))
                                  : readable(coherent<Volume>(parse_unit(unit).coherent(number)));
  return fmt::format("{:.4g} {}", shown.number, shown.unit);
}

std::string addition_words(const Json& step, const Json& addition) {
  std::string text = amount_words(addition.at("amount")) + " of " + addition.at("substance").get<std::string>();
  if (const auto strength = addition.value("strength", ""); !strength.empty()) text += " (" + strength + ")";
  const auto into = addition.value("into", "");
  const auto lot = step.at("lot").get<std::string>();  // empty of a step that is on none
  if (!into.empty() || !lot.empty()) text += " into " + (into.empty() ? "lot " + lot : into);
  if (const auto when = addition.value("when", ""); !when.empty()) text += ", " + when;
  return text;
}

// A fact as the book has it, and as the sheet took it: are they one?
bool same(const Input& key, const Value& one, const Value& other) {
  constexpr double rounding = 1e-9;
  const auto close = [](double a, double b) {
    return std::abs(a - b) <= rounding * std::max(std::abs(a), std::abs(b));
  };
  if (key.kind == Kind::quantity) return close(one.number, other.number) && close(one.uncertainty, other.uncertainty);
  if (key.kind == Kind::amounts)
    return std::equal(one.amounts.begin(), one.amounts.end(), other.amounts.begin(), other.amounts.end(),
                      [&](const auto& a, const auto& b) { return a.first == b.first && close(a.second, b.second); });
  return fact_json(key, one).dump() == fact_json(key, other).dump();
}

bool is_nothing(const Value& account) {
  return account.number == 0 &&
         std::all_of(account.amounts.begin(), account.amounts.end(), [](const auto& one) { return one.second == 0; });
}

class Keeping {
 public:
  Keeping(const Book& book, const std::string& name, std::int64_t at) : book_(book), name_(name), at_(at) {}

  Json readings(const std::string& lot, const Json& of_sheet) const {
    Json all = Json::object();
    const auto known = book_.lot(lot, at_);
    const Json& before = of_sheet.at("before");
    const bool from_book = of_sheet.contains("book");
    if (known && !known->is_empty()) refuse_other_accounts(*known, before);
    for (const auto& [fact, said] : before.items()) {
      const Input* key = find_lot_key(fact);
      if (key == nullptr) continue;
      const Value value = fact_of(*key, said);
      const auto booked = known && !known->is_empty() ? known->value(*key) : std::nullopt;
      if (booked && same(*key, *booked, value)) continue;
      if (booked && key == &lot::volume && !from_book)
        refuse(fmt::format("the sheet takes lot {} for {}, the book has {}", lot, shown(*key, value),
                           shown(*key, *booked)),
               lot);
      all[fact] = said;
    }
    return all;
  }

  void refuse_second(const Json& sheet, const std::string& lot) const {
    auto sheets = book_.data().prepare("SELECT DISTINCT sheet FROM work WHERE lot = ? AND done_by IS NULL");
    sheets.with(lot);
    while (sheets.step())
      if (book_.payload(sheets.number(0)).value("sheet", Json()) == sheet)
        throw BadInput(
            fmt::format("{}: this sheet is kept already, as entry {}, and its work is open\n  'vatwright book done {}' "
                        "when it is done",
                        name_, sheets.number(0), sheets.number(0)));
  }

 private:
  [[noreturn]] void refuse(const std::string& what, const std::string& lot) const {
    throw BadInput(
        fmt::format("{}: {}; nothing was kept\n  write '{}: from book' under 'lots:' of the recipe, and run it again; "
                    "or, if the book is "
                    "wrong, correct it: 'vatwright book history {}'",
                    name_, what, lot, lot));
  }

  // A limit that was held against an empty memory was not held.
  void refuse_other_accounts(const LotState& known, const Json& before) const {
    for (const Input* key : lot::keys) {
      if (key->behaves.account == Account::none) continue;
      const auto booked = known.value(*key);
      const auto at = before.find(std::string(key->name));
      if (!booked && at == before.end()) continue;
      Value none, said = at == before.end() ? none : fact_of(*key, *at);
      if (!booked ? is_nothing(said) : at == before.end() ? is_nothing(*booked) : same(*key, *booked, said)) continue;
      const auto words = [&](const Value& value) {
        return is_nothing(value) ? std::string("none") : shown(*key, value);
      };
      refuse(fmt::format("the sheet reckons lot {} with {} {}, the book has {}", known.name, key->name, words(said),
                         words(booked.value_or(none))),
             known.name);
    }
  }

  const Book& book_;
  const std::string& name_;
  std::int64_t at_;
};

}  // namespace

Json work_of(const Json& sheet) {
  Json work = Json::array();
  std::int64_t number = 0;
  for (const auto& step : sheet.at("steps")) {
    ++number;
    const auto add = [&](std::size_t part, const std::string& what) {
      std::string lot = step.at("lot");
      if (lot.empty() && !step.at("leaves").empty()) lot = step.at("leaves").begin().key();
      work.push_back({{"step", number}, {"part", part}, {"lot", lot}, {"what", what}});
    };
    const Json& additions = step.at("additions");
    for (std::size_t i = 0; i < additions.size(); ++i) add(i + 1, addition_words(step, additions[i]));
    if (!additions.empty()) continue;
    const std::string calculation = step.at("calculation");
    if (!step.at("work").empty())
      add(0, calculation + ": " + step.at("work").front().get<std::string>());
    else if (checks_hold(step) && !step.at("leaves").empty() && !makes_of_nothing(sheet, step))
      add(0, calculation);
  }
  return work;
}

std::vector<std::string> cautions_of(const Json& sheet, std::int64_t step, std::int64_t part) {
  std::vector<std::string> all;
  if (part <= 0) return all;
  const Json& addition =
      sheet.at("steps").at(static_cast<std::size_t>(step - 1)).at("additions").at(static_cast<std::size_t>(part - 1));
  for (const char* member : {"hazards", "cautions"})
    for (const Json lines = addition.value(member, Json::array()); const auto& line : lines)
      all.push_back(line.get<std::string>());
  return all;
}

NewEntry keep(const Book& book, const std::string& name, const std::string& text, std::int64_t at) {
  parse_json(name, text);  // within limits, no member twice
  try {
    const Json sheet = Json::parse(text);
    if (!sheet.is_object() || sheet.value("sheet", 0) != 1)
      throw BadInput(
          name + ": expected a worksheet in JSON\n  'vatwright run RECIPE --format json --out SHEET.json' writes one");
    const Keeping keeping(book, name, at);
    Json readings = Json::object(), lots = Json::array();
    for (const auto& [lot, of_sheet] : sheet.at("lots").items()) {
      lots.push_back(lot);
      keeping.refuse_second(sheet, lot);
      readings[lot] = keeping.readings(lot, of_sheet);
    }
    return {std::string(kept),
            {},
            {},
            {{"lots", lots}, {"readings", readings}, {"work", work_of(sheet)}, {"sheet", sheet}}};
  } catch (const Json::exception&) {
    throw BadInput(name +
                   ": this sheet does not say what its steps leave of their lots: an earlier vatwright wrote it\n  run "
                   "its recipe again, and keep that");
  }
}

}  // namespace vatwright::book
