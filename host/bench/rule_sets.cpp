#include "host/bench/rule_sets.hpp"

#include "units/error.hpp"
#include "units/nearest.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>

namespace vatwright {

namespace {
void sort_once_each(std::vector<std::string>& names) {
  std::sort(names.begin(), names.end());
  names.erase(std::unique(names.begin(), names.end()), names.end());
}

std::string today() {
  const std::chrono::year_month_day day(std::chrono::floor<std::chrono::days>(std::chrono::system_clock::now()));
  return fmt::format("{:04}-{:02}-{:02}", static_cast<int>(day.year()), static_cast<unsigned>(day.month()),
                     static_cast<unsigned>(day.day()));
}
}  // namespace

std::string told_on_a_sheet(const RuleSet& set, bool first) {
  std::string out = set.title() + ": " + set.note();
  if (!set.review_by().empty() && set.review_by() < today())
    out += "; last confirmed " + set.confirmed() + ", and its review was due by " + set.review_by();
  if (first)
    out +=
        ". Beside a figure: 'from memory' was not read in its text, 'seen in a secondary source' was read in another "
        "one, 'repealed text' is thought to have been carried on; all others were read there";
  return out;
}

std::vector<std::string> rule_names(const std::filesystem::path& folder) {
  std::vector<std::string> names;
  std::error_code ec;
  for (const auto& entry : std::filesystem::directory_iterator(folder, ec))
    if (entry.path().extension() == ".yaml") names.push_back(entry.path().stem().string());
  std::sort(names.begin(), names.end());
  return names;
}

RuleSet named_rules(const std::filesystem::path& folder, std::string_view name) {
  const auto file = folder / (std::string(name) + ".yaml");
  if (name.find('/') == std::string_view::npos && std::filesystem::exists(file)) return RuleSet(file);
  const auto names = rule_names(folder);
  const std::vector<std::string_view> views(names.begin(), names.end());
  std::string known;
  for (const auto& n : names) known += (known.empty() ? "" : ", ") + n;
  const auto close = nearest(name, views);
  throw InputError("no rule set '" + std::string(name) + "'",
                   (close.empty() ? "" : "the nearest is '" + std::string(close) + "'; ") + "there are: " + known +
                       "; a file of house rules is named with its ending .yaml");
}

bool is_rule_file(std::string_view name) { return name.ends_with(".yaml") || name.ends_with(".yml"); }

std::filesystem::path rule_file(const Recipe& recipe, const std::string& name) {
  return std::filesystem::path(recipe.document.name()).parent_path() / name;
}

std::vector<std::filesystem::path> rule_files(const Recipe& recipe) {
  std::vector<std::filesystem::path> files;
  for (const auto& [name, mark] : recipe.rules)
    if (is_rule_file(name)) files.push_back(rule_file(recipe, name));
  return files;
}

std::vector<std::string> held_topics(Registry& registry) {
  std::vector<std::string> held;
  for (const auto* plugin : registry.all())
    for (const auto& calculation : plugin->calculations)
      for (const auto* limit : calculation.limits) held.emplace_back(limit->name);
  sort_once_each(held);
  return held;
}

RuleSet own_rules(const std::filesystem::path& file, const std::filesystem::path& shipped, Registry& registry) {
  RuleSet own(file);
  auto known = held_topics(registry);
  for (const auto& name : rule_names(shipped)) {
    const RuleSet set = named_rules(shipped, name);
    for (const auto topic : set.topics()) known.emplace_back(topic);
  }
  sort_once_each(known);
  own.refuse_unknown_topics(known);
  own.mark_as_own();
  return own;
}

}  // namespace vatwright
