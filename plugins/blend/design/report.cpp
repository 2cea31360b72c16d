#include "plugins/blend/design/report.hpp"

#include "units/parse.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace vatwright::blend::design {
namespace {

// One more than a step shows.
int decimals(const Input& key) {
  return 1 + static_cast<int>(std::max(0.0, std::ceil(-std::log10(step_in_unit(key)) - 1e-9)));
}

Figure figure_of(const Input& key, double coherent) { return {key.unit, decimals(key), coherent, key.dimension}; }

std::string words(const Input& key, double coherent) {
  return print_coherent(coherent, key.dimension, key.unit, decimals(key));
}

double cost_of(const Problem& problem, const Mixture& shares) {
  double sum = 0;
  for (std::size_t i = 0; i < shares.size(); ++i) sum += shares[i] * problem.lots[i].price;
  return sum * (problem.volume / hectolitre).value();
}

double distance_of(const Problem& problem, const Estimate& blend) {
  double sum = 0;
  for (const auto& figure : problem.profile) sum += std::abs(blend.value(*figure.on) - *figure.low) / step(*figure.on);
  return sum;
}

void write_results(const Problem& problem, const Found& found, Outcome& out) {
  const auto& shares = found.at.shares();
  const auto used = std::count_if(shares.begin(), shares.end(), [](double s) { return s > 0; });
  out.result(lots_used, coherent<Fraction>(static_cast<double>(used)));
  out.result(blend_volume, found.at.prediction().mixed.volume);
  if (problem.priced) out.result(cost, coherent<Fraction>(cost_of(problem, shares)));
  if (!problem.for_cost) out.result(distance, coherent<Fraction>(distance_of(problem, found.at)));
}

void hold_bounds(const Problem& problem, const Estimate& blend, Outcome& out) {
  for (const auto& side : sides(problem)) {
    const bool most = side.sense == Sense::at_most;
    const double value = blend.value(*side.key);
    const double over = (value - side.bound) / step(*side.key) * (most ? 1 : -1);
    out.checks.push_back({.name = fmt::format("{} of the blend", side.key->name),
                          .holds = over <= on_the_bound,
                          .value = figure_of(*side.key, value),
                          .limit = figure_of(*side.key, side.bound),
                          .relation = most ? "at most" : "at least",
                          .source = "bound of the step",
                          .remedy = {}});
  }
}

Table shares_table(const Problem& problem, const Mixture& shares) {
  Table table{.name = "what goes in",
              .columns = {{.name = "lot"},
                          {.name = "share", .unit = "%", .decimals = 2},
                          {.name = "volume", .unit = "hL", .decimals = 2},
                          {.name = "left in the lot", .unit = "hL", .decimals = 2}},
              .rows = {}};
  if (problem.priced) table.columns.push_back({.name = "cost", .unit = "1", .decimals = 2});
  for (std::size_t i = 0; i < shares.size(); ++i) {
    if (!(shares[i] > 0)) continue;
    const auto& lot = problem.lots[i];
    const Volume volume = shares[i] * problem.volume;
    const auto there = lot.row->get(lot::volume);
    std::vector<Cell> row{lot.name(), shares[i], volume.value(),
                          there ? Cell(std::max(0.0, (*there - volume).value())) : Cell()};
    if (problem.priced) row.emplace_back((volume / hectolitre).value() * lot.price);
    table.rows.push_back(std::move(row));
  }
  return table;
}

const KeyBounds* on(const std::vector<KeyBounds>& list, const Input& key) {
  const auto at = std::find_if(list.begin(), list.end(), [&](const KeyBounds& b) { return b.on == &key; });
  return at == list.end() ? nullptr : &*at;
}

Table analysis_table(const Problem& problem, const Estimate& blend) {
  Table table{.name = "the blend as predicted", .columns = {{.name = "figure"}, {.name = "predicted"}}, .rows = {}};
  if (!problem.for_cost) table.columns.push_back({.name = "profile"});
  for (const auto& need : can_be_bound) {
    const Input& key = *need.input;
    if (!blend.knows(key)) continue;
    std::vector<Cell> row{std::string(key.name), words(key, blend.value(key))};
    if (!problem.for_cost) {
      const auto* wish = on(problem.profile, key);
      row.push_back(wish != nullptr ? Cell(words(key, *wish->low)) : Cell());
    }
    table.rows.push_back(std::move(row));
  }
  return table;
}

// What binds, and what it would be worth if it bound a little less.
Table prices_table(const Problem& problem, const Found& found) {
  constexpr double nothing = 1e-7;
  Table table{.name = "what binds, and what it costs",
              .columns = {{.name = "what binds"},
                          {.name = "looser by"},
                          {.name = problem.for_cost ? "saves" : "steps nearer", .unit = "1", .decimals = 2}},
              .rows = {}};
  const auto& f = found.formulation;
  for (std::size_t i = 0; i < f.rows.size(); ++i) {
    const double gain = std::abs(found.solution.prices[i]) * f.rows[i].looser * f.scale;
    if (f.rows[i].looser > 0 && std::abs(found.solution.prices[i]) > nothing)
      table.rows.push_back({f.rows[i].words, f.rows[i].by, gain});
  }
  return table;
}

// What is proven of the choice of lots, where not all were tried.
void note_gap(const Problem& problem, const Found& found, Outcome& out) {
  if (!found.choice || !found.choice->ended) return;
  const double here = found.choice->objective, least = std::max(found.choice->proven, 0.0);
  const double gap = here > 0 ? std::max(here - least, 0.0) / here : 0;
  const double scale = found.formulation.scale;
  out.note(fmt::format(
      "this choice of lots is not proven to be the best: the search was ended after {} tries. {} {:.4g}, and no choice "
      "can come below {:.4g}: a gap of {:.3g} %. With fewer lots to choose from it goes to its end",
      found.choice->nodes, problem.for_cost ? "The blend costs" : "The steps from the profile are", here * scale,
      least * scale, 100 * gap));
}

void notes(const Problem& problem, const Found& found, Outcome& out) {
  note_gap(problem, found, out);
  const auto& columns = found.formulation.model.columns;
  if (std::any_of(columns.begin(), columns.end(), [](const auto& c) { return c.yes_or_no; }))
    out.note("what a bound costs is told for this choice of lots; with another choice it may cost less");
  if (!problem.for_cost) out.note("distances from the profile count in steps: " + steps_in_words(problem));
  if (found.at.knows(lightness))
    out.note(
        fmt::format("L*, a* and b* are those through {}, from absorbances that add up; colour that bleaches or "
                    "browns on joining is not in them",
                    print(problem.path, "mm", 1)));
  for (const auto& lot : problem.lots)
    if (lot.row->has(lot::free_so2)) {
      out.note("free SO2 is bound anew when lots are joined: measure it again before the next addition");
      break;
    }
  out.note("the design moves no wine; blend.mix joins the lots");
}

}  // namespace

std::string steps_in_words(const Problem& problem) {
  std::string text;
  for (const auto& figure : problem.profile)
    text += fmt::format("{}{} {}", text.empty() ? "" : ", ", figure.on->name,
                        with_unit(fmt::format("{:g}", step_in_unit(*figure.on)), figure.on->unit));
  return text;
}

void report(const Problem& problem, const Found& found, Outcome& out) {
  write_results(problem, found, out);
  hold_bounds(problem, found.at, out);
  out.tables.push_back(shares_table(problem, found.at.shares()));
  out.tables.push_back(analysis_table(problem, found.at));
  if (auto prices = prices_table(problem, found); !prices.rows.empty()) out.tables.push_back(std::move(prices));
  notes(problem, found, out);
}

void report_clash(const NoBlend& none, Outcome& out) {
  std::string all;
  for (const auto& one : none.clash) all += (all.empty() ? "" : "; ") + one.demand.words;
  const std::string_view way_out = none.clash.size() == 1
                                       ? "give way here, or add a lot that helps"
                                       : "give way in one of these, and the rest of them can be met; or add a lot "
                                         "that helps";
  out.checks.push_back({.name = "a blend of these lots",
                        .source = "linear programming; the smallest set of demands that was found to clash",
                        .remedy = fmt::format("no shares meet, all at once: {}. {}", all, way_out)});
  for (const auto& one : none.clash) {
    const auto& demand = one.demand;
    if (demand.key == nullptr || !one.reachable) continue;
    const bool most = demand.sense == Sense::at_most;
    out.checks.push_back({.name = fmt::format("{} as near as the rest lets it come", demand.key->name),
                          .value = figure_of(*demand.key, *one.reachable),
                          .limit = figure_of(*demand.key, demand.bound),
                          .relation = most ? "at most" : "at least",
                          .source = "bound of the step",
                          .remedy = fmt::format("the {} that the other demands leave room for is {}",
                                                most ? "lowest" : "highest", words(*demand.key, *one.reachable))});
  }
}

}  // namespace vatwright::blend::design
