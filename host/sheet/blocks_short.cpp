#include "host/sheet/blocks.hpp"
#include "host/sheet/phrases.hpp"
#include "host/sheet/writers.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

namespace vatwright::blocks {
namespace {

// What to do, in the order of the work: that of a step once, before the first of its additions.
class ToDo {
 public:
  explicit ToDo(const Worksheet& sheet) : sheet_(sheet) {}

  Section whole() {
    for (std::size_t i = 0; i < sheet_.steps.size(); ++i)
      for (const auto& check : sheet_.steps[i].outcome.checks)
        if (!check.holds) add(Alarm{"Fails", at_step(i, check.name + comparison(check)), check.remedy, {}, true});
    for (const auto& pair : sheet_.weigh_out.apart) add(Alarm{"Keep apart", apart_words(pair), {}, {}, true});
    const auto warnings = section_.blocks.size();
    for (const auto& first : asking_first(sheet_)) add(Task{.words = first});
    for (const auto& [n, i] : sheet_.weigh_out.lines) {
      work_up_to(n);
      const StepSheet& step = sheet_.steps[n];
      const Addition& a = step.outcome.additions[i];
      add(Task{.words = at_step(n, fmt::format("{} of {} into {} ({})", shown_amount(a), named(a, *step.added[i]),
                                               destination(step, a), dose_words(a)))});
    }
    work_up_to(sheet_.steps.size());
    for (auto& one : figures_) add(std::move(one));
    if (section_.blocks.size() == warnings) add(Remark{"nothing", true});
    return std::move(section_);
  }

 private:
  void add(Block block) { section_.blocks.push_back(std::move(block)); }

  std::string at_step(std::size_t step, const std::string& words) const {
    return sheet_.steps.size() > 1 ? fmt::format("{} (step {})", words, step + 1) : words;
  }

  void work_up_to(std::size_t step) {
    for (; next_ <= step && next_ < sheet_.steps.size(); ++next_) {
      const StepSheet& s = sheet_.steps[next_];
      for (const auto& task : tasks(s)) add(Task{.words = at_step(next_, task)});
      if (const auto idle = idle_words(s); !idle.empty())
        add(Remark{at_step(next_, (s.lot.empty() ? "" : "lot " + s.lot + ": ") + idle)});
      if (!s.doses && !asks_for_something(s.outcome)) figures(s);
    }
  }

  // Of steps that ask for nothing: "molecular SO2 0.34 mg/L (lot T7)".
  void figures(const StepSheet& s) {
    for (std::size_t i = 0; i < s.outcome.results.size(); ++i)
      figures_.push_back(
          {fmt::format("{} {}{}", s.outcome.results[i].info->name, shown(s.outcome.results[i], spread_of(s, i)),
                       s.lot.empty() ? "" : " (lot " + s.lot + ")")});
  }

  const Worksheet& sheet_;
  Section section_{.id = "to-do", .title = {"To do", ""}};
  std::vector<Remark> figures_;
  std::size_t next_ = 0;
};

// By substance; of several the cautions that all of them share stand once, last.
std::vector<Section> care(const Worksheet& sheet) {
  std::vector<const Substance*> all;
  const auto remember = [&](const Substance* one) {
    if (std::find(all.begin(), all.end(), one) == all.end()) all.push_back(one);
  };
  for (const auto& step : sheet.steps) {
    for (const auto* one : step.added) remember(one);
    for (const auto* one : step.reagents) remember(one);
  }
  const auto shared = [&](const std::string& line) {
    return all.size() > 1 && std::all_of(all.begin(), all.end(), [&](const Substance* one) {
             const auto lines = all_cautions(*one);
             return std::find(lines.begin(), lines.end(), line) != lines.end();
           });
  };
  std::vector<Section> out;
  Cautions last;
  for (const auto* one : all) {
    Cautions own;
    for (const auto& line : all_cautions(*one))
      if (!shared(line))
        own.lines.push_back({{}, {}, line});
      else if (one == all.front())
        last.lines.push_back({{}, {}, line});
    out.push_back({.id = {}, .title = {"Cautions: ", one->name()}, .blocks = {std::move(own)}});
  }
  if (!last.lines.empty())
    out.push_back({.id = {}, .title = {"Cautions: ", "all of them"}, .blocks = {std::move(last)}});
  return out;
}

std::string names_of(const std::vector<UsedRules>& rules) {
  std::vector<std::string_view> names;
  for (const auto& set : rules) names.push_back(set.name);
  return names.empty() ? std::string(no_rules) : fmt::format("{}: check the current text", fmt::join(names, ", "));
}

}  // namespace

Sheet in_short(const Worksheet& sheet) {
  Sheet out = beginning(sheet);
  out.brief = true;
  out.about.push_back({"rules", names_of(sheet.rules)});
  out.sections.push_back(ToDo(sheet).whole());
  for (auto& one : care(sheet)) out.sections.push_back(std::move(one));
  return out;
}

}  // namespace vatwright::blocks
