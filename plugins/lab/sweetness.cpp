#include "plugins/lab/sweetness.hpp"

#include "units/basis.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <vector>

namespace vatwright::lab {
namespace {

enum class Meets : std::uint8_t { no, by_acidity, yes };

Meets meets(const TermRow& row, MassConcentration sugar, std::optional<Acidity> acidity) {
  if (sugar.value() < row.least_sugar || sugar.value() > row.most_sugar) return Meets::no;
  if (!row.most_over_acidity) return Meets::yes;
  if (!acidity) return Meets::by_acidity;
  return (sugar - as_tartaric(*acidity)).value() <= *row.most_over_acidity ? Meets::yes : Meets::no;
}

// The words of one rule set, each once, the driest first.
struct Words {
  std::vector<const TermRow*> fit, by_acidity;

  static bool has(const std::vector<const TermRow*>& rows, const TermRow& row) {
    return std::any_of(rows.begin(), rows.end(), [&](const TermRow* r) { return r->word == row.word; });
  }
  void add(const TermRow& row, Meets how) {
    if (how == Meets::yes && !has(fit, row)) fit.push_back(&row);
    if (how == Meets::by_acidity && !has(by_acidity, row)) by_acidity.push_back(&row);
  }
};

// With what else the row asks for, which a figure of sugar cannot tell.
std::string quoted(const TermRow& row) {
  return "'" + row.word + "'" + (row.meaning.empty() ? "" : " (" + row.meaning + ")");
}

std::string list(const std::vector<const TermRow*>& rows, std::size_t from) {
  std::string out;
  for (std::size_t i = from; i < rows.size(); ++i) out += (i > from ? ", " : "") + quoted(*rows[i]);
  return out;
}

void say(const std::string& rules, const Words& words, MassConcentration sugar, Outcome& out) {
  const std::string shown = print(sugar, "g/L", 1);
  if (words.fit.empty()) {
    out.note(fmt::format("no sweetness term of {} fits {} of sugar", rules, shown));
  } else {
    const TermRow& first = *words.fit.front();
    out.note(fmt::format("sweetness term of {}{}: {} at {} of sugar{} [{}]", rules,
                         first.condition.empty() ? "" : " (" + first.condition + ")", quoted(first), shown,
                         words.fit.size() > 1 ? "; within the figures of " + list(words.fit, 1) + " too" : "",
                         first.source));
  }
  for (const TermRow* row : words.by_acidity)
    if (!Words::has(words.fit, *row))
      out.note(fmt::format("{} of {} may fit too: that hangs on the titratable acidity, which was not given",
                           quoted(*row), rules));
}

}  // namespace

MassConcentration as_tartaric(Acidity acidity) {
  return acidity * coherent<EquivalentMass>(1 / counted_per_kilogram(*find_basis("tartaric acid")));
}

void note_sweetness(const Inputs& in, MassConcentration sugar, std::optional<Acidity> acidity, Outcome& out) {
  const auto rows = in.sweetness_terms();
  std::vector<std::string> sets;
  for (const auto& row : rows)
    if (std::find(sets.begin(), sets.end(), row.rules) == sets.end()) sets.push_back(row.rules);
  if (sets.empty())
    out.note("no rule set of this recipe gives sweetness terms for this wine");
  else if (!in.has(lot::wine_class))
    out.note("the lot does not say its class, still or sparkling: the sweetness terms hang on it");
  for (const auto& rules : sets) {
    if (!in.has(lot::wine_class)) break;
    Words words;
    for (const auto& row : rows)
      if (row.rules == rules) words.add(row, meets(row, sugar, acidity));
    say(rules, words, sugar, out);
  }
}

}  // namespace vatwright::lab
