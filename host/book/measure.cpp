#include "host/book/measure.hpp"

#include "host/plugin/lot.hpp"
#include "host/recipe/recipe.hpp"
#include "host/recipe/together.hpp"
#include "host/recipe/value.hpp"
#include "host/sheet/fact_json.hpp"
#include "host/yaml/document.hpp"
#include "units/nearest.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

namespace vatwright::book {
namespace {

[[noreturn]] void unknown_fact(const std::string& name) {
  std::vector<std::string_view> known;
  for (const Input* key : lot::keys) known.push_back(key->name);
  throw BadInput(fmt::format("a lot has no {}\n  {}", in_quotes(name),
                             did_you_mean(name, known, fmt::format("a lot has {}", fmt::join(known, ", ")))));
}

// Read as in a recipe, so that a slip is answered in the same words.
Value value_of(const Input& key, const std::string& text) {
  const bool map = text.starts_with("{");
  Json quoted = text;
  return [&] {
    const Document document = Document::read("reading", map ? text : quoted.dump());
    return read_value(document, document.root(), key, nullptr);
  }();
}

void refuse_account(const Book& book, const std::string& lot, const Input& key) {
  if (key.behaves.account == Account::none) return;
  const auto known = book.lot(lot);
  if (!known || known->is_empty()) return;
  const auto account = known->value(key);
  if (!account || !account->silent.empty()) return;
  throw BadInput(
      fmt::format("{} of {} is not measured: the book counts it from what was done\n  correct the entry that is "
                  "wrong; 'vatwright book history {}' shows them",
                  key.name, lot, lot));
}

}  // namespace

NewEntry measure(const Book& book, const std::string& lot, const std::vector<std::string>& readings,
                 const std::string& sample) {
  Json all = Json::object();
  Value free, total;
  for (const auto& reading : readings) {
    const auto equals = reading.find('=');
    if (equals == std::string::npos || equals == 0)
      throw BadInput("expected NAME=VALUE, read " + in_quotes(reading) + "\n  such as 'pH=3.38', in quotes");
    const std::string name = reading.substr(0, equals);
    const Input* key = find_lot_key(name);
    if (key == nullptr) unknown_fact(name);
    if (all.contains(name)) throw BadInput(in_quotes(name) + " is given a second time\n  keep one of the two");
    refuse_account(book, lot, *key);
    const Value value = value_of(*key, reading.substr(equals + 1));
    if (key == &lot::free_so2) free = value;
    if (key == &lot::total_so2) total = value;
    all[name] = fact_json(*key, value);
    if (!value.written.empty()) all[name]["written"] = value.written;
  }
  const auto given = [&](const Input& key, const Value& value) {
    return all.contains(std::string(key.name)) ? &value : nullptr;
  };
  try {
    check_together(given(lot::free_so2, free), given(lot::total_so2, total));
  } catch (const InputError& error) {
    throw BadInput(std::string(error.what()) + "\n  " + error.hint());
  }
  Json payload{{"lot", lot}, {"readings", all}};
  if (!sample.empty()) {
    check_text("sample", sample);
    payload["sample"] = sample;
  }
  return {std::string(measured), {}, {}, std::move(payload)};
}

}  // namespace vatwright::book
