#include "plugins/blend/checks.hpp"

#include "host/facts/join.hpp"
#include "plugins/blend/keys.hpp"
#include "units/nearest.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <cmath>
#include <string_view>

namespace vatwright::blend {
namespace {

std::string lower(std::string_view text) {
  std::string out(text);
  for (char& c : out) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  return out;
}

// One letter added, lost, changed or swapped with its neighbour, or none but the case. A figure that
// differs is no slip: clones and years have numbers.
bool one_slip(std::string_view first, std::string_view second) {
  const std::string a = lower(first), b = lower(second);
  const auto ends = std::mismatch(a.begin(), a.end(), b.begin(), b.end());
  const auto same = static_cast<std::size_t>(ends.first - a.begin());
  const auto x = std::string_view(a).substr(same), y = std::string_view(b).substr(same);
  if (x.empty() && y.empty()) return true;
  const auto digit = [](std::string_view rest) {
    return !rest.empty() && std::isdigit(static_cast<unsigned char>(rest[0]));
  };
  if (digit(x) || digit(y)) return false;
  const auto after = [](std::string_view rest, std::size_t n) { return rest.substr(std::min(n, rest.size())); };
  if (after(x, 1) == y || x == after(y, 1) || after(x, 1) == after(y, 1)) return true;
  return x.size() > 1 && y.size() > 1 && x[0] == y[1] && x[1] == y[0] && x.substr(2) == y.substr(2);
}

double share_of(const Shares& shares, std::string_view name) {
  for (const auto& [known, share] : shares)
    if (known == name) return share;
  return 0;
}

const Shares* shares_in(const NewLot& blend, const SharesKey& key) {
  const auto at = blend.analysis.find(key.name);
  return at == blend.analysis.end() ? nullptr : &at->second.shares;
}

std::string listed(const Shares& shares) {
  std::string out;
  for (const auto& [name, share] : shares)
    out += fmt::format("{}{} {}", out.empty() ? "" : ", ", name, print(Fraction(share), "%", 1));
  return out;
}

Figure percent_figure(double share) { return {"%", 1, share}; }

// The members of the rule's set that are in the blend.
Shares members(const CompositionRule& rule, const Shares& shares) {
  Shares out;
  for (const auto& [name, share] : shares) {
    const bool in_set = rule.among.empty() || std::find(rule.among.begin(), rule.among.end(), name) != rule.among.end();
    if (in_set && share > hair) out.emplace_back(name, share);
  }
  return out;
}

// What the year on the label takes when the label names no viticultural area.
std::string in_place_of_an_area(const Inputs& in, const NewLot& blend) {
  const auto bound = in.bound(vintage_share_limit, &blend.analysis);
  return fmt::format("; a label that names another origin than a viticultural area takes {}: write '{}: {}' then",
                     bound ? print(bound->value, "%", 0) + " of the year (" + bound->row.source + ")" : "less",
                     label_origin.name, other_origin);
}

class RuleChecks {
 public:
  RuleChecks(const CompositionRule& rule, const Shares& shares, Outcome& out)
      : rule_(rule), members_(members(rule, shares)), out_(out) {
    for (const auto& [name, share] : members_) together_ += share;
  }

  void run() {
    const auto count = static_cast<double>(members_.size());
    const std::string there =
        members_.empty() ? "none of the set is in the blend" : "in the blend: " + listed(members_);
    if (rule_.least_members)
      add("how many of them", count >= *rule_.least_members, {"1", 0, count},
          {"1", 0, static_cast<double>(*rule_.least_members)}, "at least", there + "; join another of the set");
    if (const auto least = rule_.together_at_least)
      add("together", together_ >= *least - hair, percent_figure(together_), percent_figure(*least), "at least",
          there + "; take more of the set");
    if (const auto most = rule_.together_at_most)
      add("together", together_ <= *most + hair, percent_figure(together_), percent_figure(*most), "at most",
          there + "; take less of the set");
    if (const auto most = rule_.each_at_most) hold_each(*most);
    if (rule_.never_together)
      add("how many of them are joined", count <= 1, {"1", 0, count}, {"1", 0, 1}, "at most",
          there + "; keep them apart, or say what colour and class the blend is to have");
  }

 private:
  void hold_each(double most) {
    const auto largest = std::max_element(members_.begin(), members_.end(),
                                          [](const auto& a, const auto& b) { return a.second < b.second; });
    if (largest == members_.end()) return;
    add("largest share", largest->second <= most + hair, percent_figure(largest->second), percent_figure(most),
        "at most", fmt::format("take less of {}", largest->first));
  }

  void add(std::string_view demand, bool holds, Figure value, Figure limit, std::string_view relation,
           std::string remedy) {
    out_.checks.push_back({.name = fmt::format("{}, {}, {}{}", rule_.name, demand, rule_.rules,
                                               rule_.condition.empty() ? "" : " (" + rule_.condition + ")"),
                           .holds = holds,
                           .value = value,
                           .limit = limit,
                           .relation = relation,
                           .source = rule_.source,
                           .remedy = holds ? std::string() : std::move(remedy)});
  }

  const CompositionRule& rule_;
  Shares members_;
  double together_ = 0;
  Outcome& out_;
};

constexpr std::pair<std::string_view, const Limit<Fraction>*> kinds_of_origin[] = {
    {viticultural_area, &area_share_limit},
    {protected_designation, &designation_share_limit},
    {protected_indication, &indication_share_limit}};

// The share that the blend has of the name that the label is to have.
double named_share(const NewLot& blend, const Input& asked, const std::string& name, const SharesKey& key) {
  const Shares* shares = shares_in(blend, key);
  if (shares == nullptr)
    throw InputError(fmt::format("'{}' cannot be checked: {} is not known of every lot", asked.name, key.name),
                     fmt::format("give each lot its {}", key.name));
  std::vector<std::string_view> known;
  for (const auto& [there, share] : *shares) known.push_back(there);
  if (std::find(known.begin(), known.end(), name) == known.end())
    throw InputError(fmt::format("the blend has no {}", in_quotes(name)),
                     did_you_mean(name, known, "it has " + listed(*shares)));
  return share_of(*shares, name);
}

constexpr auto no_share_asked = "{}: no rule set of this recipe says what share the label asks for";

// A place is held to the most that any kind of origin takes, until the step says which kind it is.
std::string asks_for_kind(const Inputs& in, const Limit<Fraction>& limit) {
  for (const auto& [kind, topic] : kinds_of_origin)
    if (&limit == topic && !in.has(label_origin))
      return fmt::format("; this is what a {} takes: write '{}: ...' if the place is another kind of origin", kind,
                         label_origin.name);
  return {};
}

void hold_label(const Inputs& in, const NewLot& blend, const NameKey& asked, const SharesKey& key,
                std::span<const Limit<Fraction>* const> limits, Outcome& out) {
  if (!in.has(asked)) return;
  const double share = named_share(blend, asked, std::string(in[asked]), key);
  bool held = false;
  for (const auto* limit : limits) {
    const auto bound = in.bound(*limit, &blend.analysis);
    if (!bound) continue;
    held = true;
    const bool for_area = limit == &area_vintage_share_limit && !in.has(label_origin);
    out.hold(*limit, *bound, coherent<Fraction>(share), 1,
             fmt::format("the blend is {}: take more that is {}, or leave the name off the label{}{}",
                         listed(*shares_in(blend, key)), in[asked], for_area ? in_place_of_an_area(in, blend) : "",
                         asks_for_kind(in, *limit)));
  }
  if (!held) out.note(fmt::format(no_share_asked, asked.name));
}

void hold_varieties(const Inputs& in, const NewLot& blend, Outcome& out) {
  if (!in.has(label_varieties)) return;
  double together = 0, off = 0;
  for (const auto& [name, stated] : in[label_varieties]) {
    const double share = named_share(blend, label_varieties, name, lot::varieties);
    together += share;
    off = std::max(off, std::abs(stated - share));
  }
  const auto all = in.bound(varieties_together_limit, &blend.analysis);
  if (all)
    out.hold(varieties_together_limit, *all, coherent<Fraction>(together), 1,
             fmt::format("the blend is {}: name every variety that is in it, or none",
                         listed(*shares_in(blend, lot::varieties))));
  const auto tolerance = in.bound(stated_share_limit, &blend.analysis);
  if (tolerance)
    out.hold(stated_share_limit, *tolerance, coherent<Fraction>(off), 1,
             fmt::format("print the shares that the blend has: {}", listed(*shares_in(blend, lot::varieties))));
  if (!all && !tolerance) out.note(fmt::format(no_share_asked, label_varieties.name));
  out.note(
      "several varieties stand on the label in the order of their shares, in letters of one size (EU: 2019/33, Article "
      "50, from memory); the US asks for the share of each beside its name (27 CFR 4.23(d), from memory)");
}

}  // namespace

void refuse_two_spellings(std::span<const Portion> portions) {
  std::vector<std::pair<std::string_view, std::string_view>> seen;  // variety, lot
  for (const auto& portion : portions) {
    if (!portion.lot->has(lot::varieties)) continue;
    for (const auto& [variety, part] : (*portion.lot)[lot::varieties]) {
      for (const auto& [other, of] : seen)
        if (other != variety && one_slip(variety, other))
          throw InputError(
              fmt::format("'{}' of lot {} is nearly '{}' of lot {}", variety, portion.lot->name, other, of),
              "write one name for one variety");
      seen.emplace_back(variety, portion.lot->name);
    }
  }
}

std::optional<Shares> shares_of(std::string_view what, const NewLot& blend, std::span<const Portion> portions) {
  if (what == "colour") {
    Shares out;
    Volume total{};
    for (const auto& portion : portions) total += portion.volume;
    for (const auto& portion : portions) {
      if (!portion.lot->has(lot::colour)) return std::nullopt;
      out.emplace_back((*portion.lot)[lot::colour], (portion.volume / total).value());
    }
    return facts::each_once(out);
  }
  const SharesKey& key = what == "variety" ? lot::varieties : what == "vintage" ? lot::vintage : lot::origin;
  const Shares* shares = shares_in(blend, key);
  return shares == nullptr ? std::nullopt : std::optional(*shares);
}

void hold(const CompositionRule& rule, const Shares& shares, Outcome& out) { RuleChecks(rule, shares, out).run(); }

void check_composition(const Inputs& in, const NewLot& blend, std::span<const Portion> portions, Outcome& out) {
  for (const auto& rule : in.composition_rules(&blend.analysis)) {
    if (const auto shares = shares_of(rule.of, blend, portions))
      hold(rule, *shares, out);
    else
      out.note(fmt::format("the rule '{}' of {} was not checked: {} is not known of every lot", rule.name, rule.rules,
                           rule.of));
  }
}

std::vector<const Limit<Fraction>*> label_limits(const Inputs& in, const NameKey& asked) {
  if (&asked == &label_variety) return {&variety_share_limit};
  if (&asked == &label_place) {
    std::vector<const Limit<Fraction>*> out{&origin_share_limit};
    for (const auto& [kind, limit] : kinds_of_origin)
      if (!in.has(label_origin) || in[label_origin] == kind) out.push_back(limit);
    return out;
  }
  if (in.get(label_origin) == other_origin) return {&vintage_share_limit};
  return {&vintage_share_limit, &area_vintage_share_limit};
}

void refuse_two_ways(const Inputs& in) {
  if (in.has(label_variety) && in.has(label_varieties))
    throw InputError("one variety and several are given for one label",
                     "keep 'label variety' for one name, or 'label varieties' for several");
}

void check_label(const Inputs& in, const NewLot& blend, Outcome& out) {
  refuse_two_ways(in);
  hold_varieties(in, blend, out);
  hold_label(in, blend, label_variety, lot::varieties, label_limits(in, label_variety), out);
  hold_label(in, blend, label_vintage, lot::vintage, label_limits(in, label_vintage), out);
  hold_label(in, blend, label_place, lot::origin, label_limits(in, label_place), out);
}

}  // namespace vatwright::blend
