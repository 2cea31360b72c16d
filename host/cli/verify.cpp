#include "host/cli/verify.hpp"

#include "host/book/lot_record.hpp"
#include "host/cli/compute.hpp"
#include "host/cli/same_sheet.hpp"
#include "host/files/hash.hpp"
#include "host/sheet/json_text.hpp"
#include "host/sheet/to_do.hpp"
#include "host/sheet/writers.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <utility>

namespace vatwright {
namespace {

using Json = nlohmann::json;

constexpr std::size_t most_bytes = 64U << 20U;
constexpr char write_one[] = "'vatwright run RECIPE --format json --out SHEET.json' writes one";
constexpr char changed_by_hand[] = "the sheet was changed after it was written: run its recipe again";

// --- reading ----------------------------------------------------------------------------------

class Sheet {
 public:
  Sheet(std::string name, const std::string& text) : file_(std::move(name)), json_(read(text)) {
    if (!json_.is_object() || !json_.contains("sheet")) fail("it is not a vatwright worksheet in JSON", write_one);
    if (json_["sheet"] != 1)
      fail("its form is not version 1, the one that this program reads", "run its recipe again, and verify that");
  }

  const Json& json() const { return json_; }

  std::string text(const char* member) const {
    const auto& recipe = json_.value("recipe", Json::object());
    if (!recipe.is_object() || !recipe.contains(member) || !recipe[member].is_string())
      fail(fmt::format("its recipe has no '{}'", member), changed_by_hand);
    return recipe[member].get<std::string>();
  }

  Draws draws() const {
    const auto& stated = json_.value("uncertainty", Json::object());
    if (!stated.is_object() || !stated.contains("draws")) return {};
    const auto number = [&](const char* member) {
      const auto& value = stated.value(member, Json(0));
      if (!value.is_number_unsigned())
        fail(fmt::format("its uncertainty has no whole number '{}'", member), changed_by_hand);
      return value.get<std::uint64_t>();
    };
    if (number("draws") > most_draws) fail(fmt::format("more than {} draws", most_draws), changed_by_hand);
    return {static_cast<std::size_t>(number("draws")), number("seed")};
  }

 private:
  Json read(const std::string& text) const {
    const auto first = text.find_first_not_of(" \t\r\n");
    if (first == std::string::npos || text[first] != '{')
      throw BadInput(file_ + ": expected a worksheet in JSON; this is " +
                     (first == std::string::npos ? "empty" : "something else") + "\n  " + write_one);
    return parse_json(file_, text);
  }

  [[noreturn]] void fail(const std::string& what, const std::string& hint) const {
    throw BadInput(file_ + ": " + what + "\n  " + hint);
  }
  std::string file_;
  Json json_;
};

Recipe recipe_in(const Sheet& sheet) {
  const std::string text = sheet.text("text");
  if (sheet.text("form") == arguments_form) return recipe_of_text(text);
  const book::SheetLots lots(book::Json(sheet.json()));
  return read_recipe(Document::read(sheet.text("file"), text), &lots);
}

// With the languages that were asked for beside it.
Recipe recipe_of(const Sheet& sheet) {
  Recipe recipe = recipe_in(sheet);
  for (const auto& language : sheet.json().value("languages", Json::array()))
    if (language.is_string()) recipe.languages.emplace_back(language.get<std::string>(), Mark{1, 0});
  return recipe;
}

// --- comparing --------------------------------------------------------------------------------

// Whether it is the entry of that file, with a hash in its form or none.
bool is_entry_of(const Json& entry, const Json& name) {
  if (!entry.is_object() || entry.size() != 2 || entry.value("name", Json()) != name) return false;
  const Json hash = entry.value("sha256", Json());
  if (!hash.is_string()) return false;
  const auto& text = hash.get_ref<const std::string&>();
  return text.empty() ||
         (text.size() == sha256_of("").size() && text.find_first_not_of("0123456789abcdef") == std::string::npos);
}

// `file`: of its recipe; empty: it is not looked at.
void look_at_recipe(const Sheet& sheet, const std::filesystem::path& file, Verdict& verdict) {
  if (sha256_of(sheet.text("text")) != sheet.text("sha256"))
    verdict.differences.emplace_back(
        "recipe: its text and its SHA-256 do not belong together; one of them was changed");
  std::error_code ec;
  if (sheet.text("form") == arguments_form) return;
  if (file.empty()) {
    verdict.not_compared.push_back(
        fmt::format("the recipe file {}: only the text that the sheet carries", sheet.text("file")));
    return;
  }
  if (!std::filesystem::is_regular_file(file, ec)) {
    verdict.not_compared.push_back(
        fmt::format("the recipe file {}, which is not here: only the text that the sheet carries", file.string()));
    return;
  }
  if (read_file(file, ReadLimits{}.bytes) != sheet.text("text"))
    verdict.differences.push_back(
        fmt::format("recipe: the file {} has changed since the sheet was written", file.string()));
}

// The file of a plugin is another one wherever it was built anew, and none where it is linked in: that is told, and no
// difference. Its version, and what it computes, are compared like all else. A sheet of an earlier program does not say
// which tables and plugins it was made with.
void look_at_files(const Sheet& sheet, Json& computed, Verdict& verdict) {
  for (const auto* member : {"tables", "plugins"}) {
    if (sheet.json().contains(member)) continue;
    computed.erase(member);
    verdict.not_compared.push_back(fmt::format("the {} that it was made with, which the sheet does not name", member));
  }
  if (!computed.contains("plugins")) return;
  const Json& stated = sheet.json()["plugins"];
  for (std::size_t i = 0; i < computed["plugins"].size(); ++i) {
    Json& here = computed["plugins"][i];
    if (!stated.is_array() || i >= stated.size() || !is_entry_of(stated[i], here["name"]) || stated[i] == here)
      continue;
    here = stated[i];
    verdict.not_compared.push_back(
        fmt::format("the file of the plugin {}, which was built elsewhere", here["name"].get<std::string>()));
  }
}

// For whoever holds the paper in the other hand: is it this sheet?
std::vector<std::string> about(const Worksheet& sheet) {
  constexpr std::size_t shown_of_hash = 12;  // as on the page
  std::vector<std::string> out{sheet.title, fmt::format("recipe {} (SHA-256 {}...)", sheet.recipe_name,
                                                        sheet.recipe_sha256.substr(0, shown_of_hash))};
  if (!sheet.date.empty() || !sheet.by.empty())
    out.push_back(sheet.date + (sheet.date.empty() || sheet.by.empty() ? "" : ", ") +
                  (sheet.by.empty() ? "" : "by " + sheet.by));
  std::string rules;
  for (const auto& set : sheet.rules) rules += (rules.empty() ? "" : ", ") + set.name;
  out.push_back("rules: " + (rules.empty() ? "none asked for" : rules));
  for (const auto& lot : sheet.lots) {
    std::string doses;
    for (const auto& step : sheet.steps)
      for (std::size_t i = 0; i < step.outcome.additions.size() && step.lot == lot.name; ++i)
        doses += (doses.empty() ? "" : ", ") + shown_amount(step.outcome.additions[i]) + " of " +
                 named(step.outcome.additions[i], *step.added[i]);
    out.push_back("lot " + lot.name + ": " + (doses.empty() ? "nothing to add" : doses));
  }
  return out;
}

Verdict verdict_on(const Bench& bench, const Sheet& sheet, const std::filesystem::path& recipe_file) {
  Verdict verdict;
  look_at_recipe(sheet, recipe_file, verdict);
  const std::size_t changed = verdict.differences.size();
  try {
    const Recipe recipe = recipe_of(sheet);
    const Worksheet anew = bench.run(recipe, sheet.draws());
    verdict.about = about(anew);
    for (const auto& step : anew.steps)
      for (const auto& check : step.outcome.checks) {
        ++verdict.checks;
        if (!check.holds) ++verdict.failing;
      }
    Json computed = Json::parse(write_json(anew));
    look_at_files(sheet, computed, verdict);
    auto found = differences_of(sheet.json(), computed, anew);
    verdict.compared = found.compared;
    std::move(found.words.begin(), found.words.end(), std::back_inserter(verdict.differences));
  } catch (const BadInput& error) {
    if (changed == 0) throw;
    verdict.differences.push_back(fmt::format("the recipe that it carries does not run: {}", error.what()));
  }
  return verdict;
}

}  // namespace

Verdict verify_sheet(const Bench& bench, const std::filesystem::path& file) {
  const Sheet sheet(file.string(), read_file(file, most_bytes));
  return verdict_on(bench, sheet, sheet.text("file"));
}

Verdict verify_text(const Bench& bench, const std::string& name, const std::string& text) {
  return verdict_on(bench, Sheet(name, text), {});
}

Verdict verify_kept(const Bench& bench, const std::string& name, const std::string& text,
                    const std::filesystem::path& recipe) {
  if (!recipe.empty()) read_file(recipe, ReadLimits{}.bytes);
  const Sheet sheet(name, text);
  return verdict_on(bench, sheet, recipe.empty() ? std::filesystem::path(sheet.text("file")) : recipe);
}

}  // namespace vatwright
