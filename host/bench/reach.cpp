#include "host/bench/reach.hpp"

#include <functional>
#include <queue>
#include <set>
#include <string_view>
#include <unordered_map>

namespace vatwright {
namespace {

void names_in(const std::map<const Input*, Value>& said, std::vector<std::string_view>& names) {
  for (const auto& [input, value] : said)
    if (input->kind == Kind::lots)
      for (const auto& row : value.rows) names.emplace_back(row.name);
}

}  // namespace

Reach::Reach(const Prepared& ready, const Worksheet& sheet) : steps_on_(ready.lots.size()) {
  std::unordered_map<std::string_view, std::size_t> place;
  for (std::size_t i = 0; i < ready.lots.size(); ++i) place.emplace(ready.lots[i].name, i);
  for (std::size_t i = 0; i < ready.steps.size(); ++i) {
    const BoundStep& step = ready.steps[i];
    std::vector<std::string_view> names;
    names_in(step.given, names);
    names_in(step.defaults, names);
    for (const auto& drawn : sheet.steps[i].outcome.drawn) names.emplace_back(drawn.lot);
    std::set<std::size_t> lots(step.makes.begin(), step.makes.end());
    if (step.lot) lots.insert(*step.lot);
    for (const auto name : names)
      if (const auto at = place.find(name); at != place.end()) lots.insert(at->second);
    for (const std::size_t lot : lots) steps_on_[lot].push_back(i);
    lots_of_.emplace_back(lots.begin(), lots.end());
  }
}

std::vector<std::size_t> Reach::from(const std::vector<std::size_t>& first) const {
  std::priority_queue<std::size_t, std::vector<std::size_t>, std::greater<>> waiting(std::greater<>(), first);
  std::set<std::size_t> reached;  // lots
  std::vector<std::size_t> steps;
  while (!waiting.empty()) {
    const std::size_t step = waiting.top();
    waiting.pop();
    if (!steps.empty() && steps.back() == step) continue;
    steps.push_back(step);
    for (const std::size_t lot : lots_of_[step])
      if (reached.insert(lot).second)
        for (const std::size_t later : steps_on_[lot])
          if (later > step) waiting.push(later);
  }
  return steps;
}

}  // namespace vatwright
