#include "plugins/blend/design/problem.hpp"

#include "plugins/blend/checks.hpp"
#include "plugins/blend/design/tint.hpp"
#include "units/print.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>

namespace vatwright::blend::design {
namespace {

std::optional<std::size_t> count(const Inputs& in, const Key<Fraction>& key) {
  const auto given = in.get(key);
  if (!given) return std::nullopt;
  const double whole_number = std::round(given->value());
  if (std::abs(whole_number - given->value()) > 1e-9)
    throw InputError(fmt::format("{} is {:g}, expected a whole number", key.name, given->value()),
                     fmt::format("write '{}: {:g}' or '{}: {:g}'", key.name, std::max(1.0, std::floor(given->value())),
                                 key.name, std::ceil(given->value())));
  return static_cast<std::size_t>(whole_number);
}

Candidate candidate(const Row& row, Volume wanted) {
  const auto there = row.get(lot::volume);
  const auto may = row.get(available) ? row.get(available) : there;
  if (!may)
    throw InputError("lot '" + row.name + "' has no volume", "write it in the lot, or 'available: ... hL' in the step");
  constexpr double slack = 1 + 1e-9;
  if (there && *may > *there * slack)
    throw InputError(fmt::format("lot '{}' holds {}, less than the {} that are said to be available", row.name,
                                 print(*there, "hL", 2), print(*may, "hL", 2)),
                     "correct the lot's 'volume', or 'available' of the step");
  Candidate out{.row = &row, .most = (*may / wanted).value(), .whole = row.get(tank) == whole};
  if (const auto least = row.get(use_up)) {
    if (*least > *may * slack)
      throw InputError(fmt::format("of lot '{}' {} are to be used up, and {} are available", row.name,
                                   print(*least, "hL", 2), print(*may, "hL", 2)),
                       "lower 'use up', or make more of the lot available");
    out.least = (*least / wanted).value();
  }
  if (const auto money = row.get(price)) out.price = money->value();
  return out;
}

// What must be known of every lot for a figure of the blend to be predicted.
std::vector<const Input*> needed_for(const Input& key) {
  if (&key == &lot::ph || &key == &lot::titratable_acidity) return {&lot::ph, &lot::titratable_acidity};
  if (is_colour(key)) return {&lot::absorbance};
  return {&key};
}

void refuse_unmeasured(const Problem& problem) {
  std::string missing;
  for (const auto& lot : problem.lots) {
    std::vector<std::string_view> names;
    for (const auto* list : {&problem.bounds, &problem.profile})
      for (const auto& bound : *list)
        for (const Input* key : needed_for(*bound.on))
          if (!lot.row->has(*key) && std::find(names.begin(), names.end(), key->name) == names.end())
            names.push_back(key->name);
    if (!names.empty())
      missing += fmt::format("{}{} lacks {}", missing.empty() ? "" : "; ", lot.name(), fmt::join(names, ", "));
  }
  if (!missing.empty())
    throw InputError("what is bound must be known of every lot: " + missing,
                     "measure it, leave the lot out, or leave the bound out; pH needs titratable acidity beside it");
}

bool wishes_for(const Problem& problem, const Input& key) {
  const auto on_key = [&](const KeyBounds& bound) { return bound.on == &key; };
  return std::any_of(problem.bounds.begin(), problem.bounds.end(), on_key) ||
         std::any_of(problem.profile.begin(), problem.profile.end(), on_key);
}

// A bound is to one end point, which all lots must have been titrated to.
void refuse_two_endpoints(const Problem& problem) {
  if (!wishes_for(problem, lot::titratable_acidity)) return;
  std::vector<Portion> all;
  for (const auto& lot : problem.lots) all.push_back({lot.row, problem.volume});
  if (std::any_of(all.begin(), all.end(),
                  [&](const Portion& p) { return endpoint_of(*p.lot) != endpoint_of(*all.front().lot); }))
    throw InputError(different_endpoints(all),
                     "titrate them alike, leave lots out, or bind pH in place of titratable acidity");
}

void refuse_unpriced(const Problem& problem) {
  std::vector<std::string_view> names;
  for (const auto& lot : problem.lots)
    if (!lot.row->has(price)) names.push_back(lot.name());
  if (!names.empty())
    throw InputError(fmt::format("the aim is least cost, and these lots have no price: {}", fmt::join(names, ", ")),
                     "write 'price: ...' for each, a plain number for one hL; 0 is a price too");
}

bool all_alike(const Problem& problem, const Choice& key) {
  return std::all_of(problem.lots.begin(), problem.lots.end(), [&](const Candidate& c) {
    return c.row->has(key) && c.row->get(key) == problem.lots.front().row->get(key);
  });
}

// What the rules may know of the blend before there is one: what the step says,
// and the words that all lots share.
Analysis common_words(const Inputs& in, const Problem& problem) {
  NewLot common;
  for (const Choice* key : {&lot::wine_class, &lot::colour, &lot::stage, &lot::zone})
    if (all_alike(problem, *key)) common.set(*key, problem.lots.front().row->get(*key));
  for (const Choice* key : {&lot::wine_class, &lot::colour})
    if (in.has(*key)) common.set(*key, in[*key]);
  return common.analysis;
}

void add_label(const Inputs& in, const NameKey& key, const char* of, const Limit<Fraction>& limit,
               const Analysis& blend, Problem& problem) {
  const auto bound = in.bound(limit, &blend);
  if (!bound) return;
  const std::string name(in[key]);
  const bool for_area = &limit == &area_vintage_share_limit || &limit == &area_share_limit;
  problem.rules.push_back(
      {.name = fmt::format("the label names {}{}", name, for_area ? " and a viticultural area" : ""),
       .of = of,
       .among = {name},
       .together_at_least = bound->value.value(),
       .rules = bound->row.rules,
       .condition = bound->row.condition,
       .source = bound->row.source});
}

// The named varieties together; their single shares follow from the blend, and are what is printed.
void add_varieties(const Inputs& in, const Analysis& blend, Problem& problem) {
  if (!in.has(label_varieties)) return;
  const auto bound = in.bound(varieties_together_limit, &blend);
  if (!bound) return;
  std::vector<std::string> names;
  for (const auto& [name, stated] : in[label_varieties]) names.push_back(name);
  problem.rules.push_back({.name = fmt::format("the label names {}", fmt::join(names, ", ")),
                           .of = "variety",
                           .among = names,
                           .together_at_least = bound->value.value(),
                           .rules = bound->row.rules,
                           .condition = bound->row.condition,
                           .source = bound->row.source});
}

// A rule on what some lot says nothing of cannot be held.
void drop_blind_rules(Problem& problem, Outcome& out) {
  std::erase_if(problem.rules, [&](const CompositionRule& rule) {
    std::vector<std::string_view> silent;
    for (const auto& lot : problem.lots)
      if (!said_of(*lot.row, rule.of)) silent.push_back(lot.name());
    if (!silent.empty())
      out.note(fmt::format("the rule '{}' ({}) was not held: nothing is said of the {} of {}", rule.name, rule.rules,
                           rule.of, fmt::join(silent, ", ")));
    return !silent.empty();
  });
}

void check(const Inputs& in, const Problem& problem) {
  if (problem.least_lots && problem.most_lots && *problem.least_lots > *problem.most_lots)
    throw InputError(fmt::format("at least {} lots and at most {}", *problem.least_lots, *problem.most_lots),
                     "'least lots' must be no more than 'most lots': look whether the two were swapped");
  if (problem.least_lots && *problem.least_lots > problem.lots.size())
    throw InputError(fmt::format("at least {} lots, of {} to choose from", *problem.least_lots, problem.lots.size()),
                     "lower 'least lots', or name more lots under 'lots'");
  if (!problem.for_cost && !in.has(profile))
    throw InputError("the aim is a profile, and none is given", "write 'profile: {pH: 3.30, ...}'");
  for (const auto& figure : problem.profile)
    if (!figure.low || !figure.high || *figure.low != *figure.high)
      throw InputError(fmt::format("the profile has a span for {}, expected one figure", figure.on->name),
                       "a span belongs into 'bounds'");
  if (problem.for_cost) refuse_unpriced(problem);
  refuse_unmeasured(problem);
  refuse_two_endpoints(problem);
}

}  // namespace

std::optional<Shares> said_of(const Row& lot, const std::string& of) {
  if (of == "colour") {
    const auto word = lot.get(lot::colour);
    if (word.empty()) return std::nullopt;
    return Shares{{std::string(word), 1.0}};
  }
  const SharesKey& key = of == "variety" ? lot::varieties : of == "vintage" ? lot::vintage : lot::origin;
  if (lot.has(key)) return lot[key];
  if (of == "origin") return Shares{{lot.name, 1.0}};
  return std::nullopt;
}

Problem read(const Inputs& in, Outcome& out) {
  Problem problem;
  problem.volume = in[wanted_volume];
  for (const auto& row : in[lots]) problem.lots.push_back(candidate(row, problem.volume));
  if (in.has(bounds)) problem.bounds = in[bounds];
  problem.for_cost = in[aim] == least_cost;
  if (!problem.for_cost && in.has(profile)) problem.profile = in[profile];
  problem.priced =
      std::all_of(problem.lots.begin(), problem.lots.end(), [](const Candidate& c) { return c.row->has(price); });
  problem.path = in[path];
  problem.least_lots = count(in, least_lots);
  problem.most_lots = count(in, most_lots);
  if (const auto share = in.get(smallest_share)) problem.smallest_share = share->value();
  check(in, problem);
  const Analysis blend = common_words(in, problem);
  problem.rules = in.composition_rules(&blend);
  refuse_two_ways(in);
  add_varieties(in, blend, problem);
  for (const auto& [key, of] :
       {std::pair{&label_variety, "variety"}, {&label_vintage, "vintage"}, {&label_place, "origin"}})
    if (in.has(*key))
      for (const auto* limit : label_limits(in, *key)) add_label(in, *key, of, *limit, blend, problem);
  drop_blind_rules(problem, out);
  return problem;
}

}  // namespace vatwright::blend::design
