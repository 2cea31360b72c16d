#include "plugins/ferment/round.hpp"

#include "plugins/ferment/tank.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace vatwright::ferment::round {
namespace {

struct OnRound {
  std::string name;
  Tank tank;
  std::string verdict;

  bool is_slow() const { return verdict == stopped || verdict == slower; }
  // Slow ones first, then by how little they fell since yesterday; dry ones last.
  int rank() const { return is_slow() ? 0 : tank.dry() ? 2 : 1; }
};

std::optional<Density> original_of(const std::vector<const Row*>& rows) {
  for (const Row* row : rows)
    if (auto given = row->get(original_density)) return given;
  return std::nullopt;
}

std::vector<OnRound> tanks_of(const Inputs& in) {
  std::vector<std::pair<std::string, std::vector<const Row*>>> by_name;
  for (const auto& row : in[readings]) {
    const std::string name(row[tank]);
    auto found = std::find_if(by_name.begin(), by_name.end(), [&](const auto& one) { return one.first == name; });
    if (found == by_name.end()) found = by_name.insert(by_name.end(), {name, {}});
    found->second.push_back(&row);
  }
  std::vector<OnRound> all;
  for (const auto& [name, rows] : by_name) {
    Tank one(rows, original_of(rows), std::nullopt, reckoning_of(in));
    auto verdict = one.verdict();
    all.push_back({name, std::move(one), std::move(verdict)});
  }
  std::stable_sort(all.begin(), all.end(), [](const OnRound& a, const OnRound& b) {
    if (a.rank() != b.rank()) return a.rank() < b.rank();
    return a.tank.last_fall().value_or(Density{}) < b.tank.last_fall().value_or(Density{});
  });
  return all;
}

Table round_table(const std::vector<OnRound>& all) {
  Table table{.name = "morning round",
              .columns = {{"tank"},
                          {"density", "kg/m³", 1},
                          {"fall a day", "kg/m³", 1},
                          {"temperature", "°C", 1},
                          {"sugar", "g/L", 0},
                          {"how it stands"},
                          {"dry on"}},
              .rows = {}};
  for (const auto& one : all) {
    const auto fall = one.tank.last_fall();
    const auto t = one.tank.temperature();
    const auto then = one.tank.forecast();
    table.rows.push_back({one.name, one.tank.density().value(), fall ? Cell(fall->value()) : Cell(),
                          t ? Cell(t->value()) : Cell(), one.tank.sugar().value(), one.verdict,
                          then && !one.tank.dry() && !one.is_slow() ? one.tank.day_of(then->dry) : std::string()});
  }
  return table;
}

}  // namespace

Outcome run(const Inputs& in) {
  const auto all = tanks_of(in);
  const auto slow_ones = std::count_if(all.begin(), all.end(), [](const OnRound& one) { return one.is_slow(); });
  Outcome out;
  out.result(tanks, coherent<Fraction>(static_cast<double>(all.size())));
  out.result(slow, coherent<Fraction>(static_cast<double>(slow_ones)));
  out.reagents.emplace_back(lab::gas_of_fermentation);
  if (in.figures_only()) return out;
  out.tables.push_back(round_table(all));
  for (const auto& one : all)
    if (one.is_slow())
      out.task(fmt::format("look at tank {} first: it {} at {}", one.name,
                           one.verdict == stopped ? "stands still" : "falls more slowly than by its own course",
                           print(one.tank.density(), "kg/m³", 1)));
  out.note("fans on before anybody goes in: carbon dioxide lies in low places unseen, and kills");
  return out;
}

}  // namespace vatwright::ferment::round
