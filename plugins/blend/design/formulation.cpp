#include "plugins/blend/design/formulation.hpp"

#include "units/parse.hpp"
#include "units/print.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>
#include <map>

namespace vatwright::blend::design {
namespace {

using program::Term;

std::string percent_of(double share) { return fmt::format("{:g} %", std::round(share * 1e6) / 1e4); }

class Formulator {
 public:
  Formulator(const Problem& problem, const Estimate& estimate, const std::vector<double>& tightening)
      : problem_(problem), estimate_(estimate), tightening_(tightening) {}

  Formulation run() {
    shares();
    if (chooses()) choices();
    volumes();
    counts();
    for (const auto& rule : problem_.rules) composition(rule);
    bounds();
    if (!problem_.for_cost) aim_at_profile();
    return std::move(out_);
  }

 private:
  std::size_t lots() const { return problem_.lots.size(); }

  bool chooses() const {
    return problem_.least_lots || problem_.most_lots || problem_.smallest_share > 0 ||
           std::any_of(problem_.lots.begin(), problem_.lots.end(), [](const Candidate& c) { return c.whole; });
  }

  std::size_t demand(Demand asked) {
    out_.demands.push_back(std::move(asked));
    return out_.demands.size() - 1;
  }
  void row(std::size_t for_demand, program::Row one, double looser = 0, std::string by = {}) {
    out_.rows.push_back({for_demand, one.name, std::move(by), looser});
    out_.model.add(std::move(one));
  }

  static std::vector<Term> terms(const Line& line) {
    std::vector<Term> out;
    for (std::size_t i = 0; i < line.size(); ++i)
      if (line[i] != 0) out.push_back({i, line[i]});
    return out;
  }

  void shares() {
    for (const auto& lot : problem_.lots) out_.scale = std::max(problem_.for_cost ? lot.price : 0, out_.scale);
    program::Row all{.name = "shares", .low = 1, .high = 1};
    for (const auto& lot : problem_.lots) {
      const double cost = problem_.for_cost ? lot.price / out_.scale : 0;
      all.terms.push_back({out_.model.add({.name = lot.name(), .high = 1, .cost = cost}), 1});
    }
    row(no_demand, std::move(all));
    if (problem_.for_cost) out_.scale *= problem_.volume / hectolitre;
  }

  // Whether a lot is used at all.
  void choices() {
    for (const auto& lot : problem_.lots)
      used_.push_back(out_.model.add({.name = "use " + lot.name(), .high = 1, .yes_or_no = true}));
    for (std::size_t i = 0; i < lots(); ++i)
      row(no_demand, {.name = problem_.lots[i].name(), .high = 0, .terms = {{i, 1}, {used_[i], -1}}});
    const double least = std::max(problem_.smallest_share, problem_.least_lots ? least_presence : 0);
    if (!(least > 0)) return;
    const auto smallest = demand({.words = "a share of at least " + percent_of(least) + " for each lot that is used"});
    for (std::size_t i = 0; i < lots(); ++i)
      row(smallest, {.name = "smallest", .low = 0, .terms = {{i, 1}, {used_[i], -least}}});
  }

  void volumes() {
    const auto stock =
        demand({.words = "the volumes that are available for " + print(problem_.volume, "hL", 2) + " of blend"});
    for (std::size_t i = 0; i < lots(); ++i) {
      const auto& lot = problem_.lots[i];
      if (lot.most < 1) {
        program::Row most{.name = "the volume of lot " + lot.name(), .high = lot.most, .terms = {{i, 1}}};
        if (!used_.empty()) most = {.name = most.name, .high = 0, .terms = {{i, 1}, {used_[i], -lot.most}}};
        row(stock, std::move(most), hectolitre / problem_.volume, "1 hL");
      }
      if (lot.whole)
        row(demand({.words = "all of lot " + lot.name() + " or nothing of it"}),
            {.name = "whole", .low = 0, .high = 0, .terms = {{i, 1}, {used_[i], -lot.most}}});
      if (lot.least > 0)
        row(demand({.words =
                        fmt::format("at least {} of lot {}", print(lot.least * problem_.volume, "hL", 2), lot.name())}),
            {.name = "what is to be used up of lot " + lot.name(), .low = lot.least, .terms = {{i, 1}}},
            hectolitre / problem_.volume, "1 hL");
    }
  }

  void counts() {
    if (used_.empty()) return;
    std::vector<Term> all;
    for (const auto column : used_) all.push_back({column, 1});
    if (problem_.least_lots)
      row(demand({.words = fmt::format("at least {} lots", *problem_.least_lots)}),
          {.name = "lots", .low = static_cast<double>(*problem_.least_lots), .terms = all});
    if (problem_.most_lots)
      row(demand({.words = fmt::format("at most {} lots", *problem_.most_lots)}),
          {.name = "lots", .high = static_cast<double>(*problem_.most_lots), .terms = all});
  }

  // Of each name that the rule is about, what the lots hold of it.
  std::map<std::string, Line> held(const CompositionRule& rule) const {
    std::map<std::string, Line> out;
    for (const auto& name : rule.among) out.emplace(name, Line(lots(), 0));
    for (std::size_t i = 0; i < lots(); ++i)
      for (const auto& [name, share] : said_of(*problem_.lots[i].row, rule.of).value_or(Shares{})) {
        if (!rule.among.empty() && !out.contains(name)) continue;
        out.try_emplace(name, Line(lots(), 0)).first->second[i] += share;
      }
    return out;
  }

  void composition(const CompositionRule& rule) {
    const auto one = demand({.words = fmt::format("{} ({})", rule.name, rule.rules)});
    const auto names = held(rule);
    Line together(lots(), 0);
    for (const auto& [name, line] : names)
      for (std::size_t i = 0; i < lots(); ++i) together[i] += line[i];
    if (rule.together_at_least)
      row(one, {.name = rule.name, .low = *rule.together_at_least, .terms = terms(together)}, 0.01, "1 %");
    if (rule.together_at_most)
      row(one, {.name = rule.name, .high = *rule.together_at_most, .terms = terms(together)}, 0.01, "1 %");
    if (rule.each_at_most)
      for (const auto& [name, line] : names)
        row(one, {.name = rule.name + ": " + name, .high = *rule.each_at_most, .terms = terms(line)}, 0.01, "1 %");
    if (rule.least_members) members(one, *rule.least_members, names);
    if (rule.never_together) apart(one, names);
  }

  void members(std::size_t rule, int least, const std::map<std::string, Line>& names) {
    program::Row count{.name = "members", .low = static_cast<double>(least)};
    for (const auto& [name, line] : names) {
      const auto present = out_.model.add({.name = name, .high = 1, .yes_or_no = true});
      auto enough = terms(line);
      enough.push_back({present, -least_presence});
      row(rule, {.name = name, .low = 0, .terms = std::move(enough)});
      count.terms.push_back({present, 1});
    }
    row(rule, std::move(count));
  }

  void apart(std::size_t rule, const std::map<std::string, Line>& names) {
    program::Row one_only{.name = "apart", .high = 1};
    for (const auto& [name, line] : names) {
      const auto present = out_.model.add({.name = name, .high = 1, .yes_or_no = true});
      for (std::size_t i = 0; i < lots(); ++i)
        if (line[i] > 0) row(rule, {.name = name, .high = 0, .terms = {{i, 1}, {present, -1}}});
      one_only.terms.push_back({present, 1});
    }
    row(rule, std::move(one_only));
  }

  void bounds() {
    const auto all = sides(problem_);
    for (std::size_t i = 0; i < all.size(); ++i) {
      const auto& side = all[i];
      const bool most = side.sense == Sense::at_most;
      const auto one = demand(
          {.words = fmt::format("{} at {} {}", side.key->name, most ? "most" : "least", shown(*side.key, side.bound)),
           .key = side.key,
           .bound = side.bound,
           .sense = side.sense});
      program::Row line{.name = out_.demands.back().words, .terms = terms(estimate_.above(*side.key, side.bound))};
      (most ? line.high : line.low) = most ? -tightening_[i] : tightening_[i];
      row(one, std::move(line), 1, with_unit(fmt::format("{:g}", step_in_unit(*side.key)), side.key->unit));
    }
  }

  static std::string shown(const Input& key, double coherent) {
    return with_unit(fmt::format("{:.6g}", parse_unit(key.unit).number(coherent)), key.unit);
  }

  // The sum of steps that the figures are away from the profile.
  void aim_at_profile() {
    for (const auto& figure : problem_.profile) {
      auto line = terms(estimate_.distance(*figure.on, *figure.low));
      line.push_back({out_.model.add({.name = "above", .cost = 1}), -1});
      line.push_back({out_.model.add({.name = "below", .cost = 1}), 1});
      row(no_demand, {.name = "profile", .low = 0, .high = 0, .terms = std::move(line)});
    }
  }

  const Problem& problem_;
  const Estimate& estimate_;
  const std::vector<double>& tightening_;
  std::vector<std::size_t> used_;
  Formulation out_;
};

}  // namespace

std::vector<Side> sides(const Problem& problem) {
  std::vector<Side> out;
  for (const auto& bound : problem.bounds) {
    const bool only = bound.low && bound.high && *bound.low == *bound.high;
    if (bound.low) out.push_back({bound.on, *bound.low, Sense::at_least, only});
    if (bound.high) out.push_back({bound.on, *bound.high, Sense::at_most, only});
  }
  return out;
}

program::Model Formulation::only(const std::vector<bool>& kept) const {
  program::Model out{.columns = model.columns};
  for (auto& column : out.columns) column.cost = 0;
  for (std::size_t i = 0; i < model.rows.size(); ++i)
    if (rows[i].demand == no_demand || kept[rows[i].demand]) out.rows.push_back(model.rows[i]);
  return out;
}

Formulation formulate(const Problem& problem, const Estimate& estimate, const std::vector<double>& tightening) {
  return Formulator(problem, estimate, tightening).run();
}

}  // namespace vatwright::blend::design
