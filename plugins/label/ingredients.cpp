#include "plugins/label/ingredients.hpp"

#include "units/print.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <set>

namespace vatwright::label::ingredients {
namespace {

constexpr std::string_view sulfites = "sulfites";

struct Labelled {
  std::vector<const SubstanceFacts*> all;  // each once

  bool has(std::string_view id) const {
    return std::any_of(all.begin(), all.end(), [&](const SubstanceFacts* s) { return s->id == id; });
  }
};

// What a list of ingredients calls it.
std::string on_label(const std::string& id) {
  if (id == "rectified concentrated must" || id == "sweetening must") return "concentrated grape must";
  return id == "sweetening sugar" ? "sucrose" : id;
}

Labelled labelled(const Inputs& in) {
  Labelled found;
  for (const auto& row : in[treatments])
    if (!found.has(row[substance].id)) found.all.push_back(&row[substance]);
  return found;
}

// By name, or by number where the law gives one; both in one line, to choose from.
std::string named_so(const SubstanceFacts& one) {
  return one.label.number.empty() ? one.id : fmt::format("{} ({})", one.id, one.label.number);
}

// "acidity regulator: tartaric acid (E 334), lactic acid (E 270)", a class a line.
std::vector<std::string> additive_lines(const Labelled& of) {
  std::vector<std::pair<std::string, std::vector<std::string>>> classes;
  for (const SubstanceFacts* one : of.all) {
    if (one->label.is != "additive" || one->label.group == "gas") continue;
    auto at = std::find_if(classes.begin(), classes.end(), [&](const auto& c) { return c.first == one->label.group; });
    if (at == classes.end()) at = classes.insert(classes.end(), {one->label.group, {}});
    at->second.push_back(named_so(*one));
  }
  std::vector<std::string> lines;
  for (const auto& [name, members] : classes) lines.push_back(fmt::format("{}: {}", name, fmt::join(members, ", ")));
  return lines;
}

std::size_t additives(const Labelled& of) {
  return static_cast<std::size_t>(std::count_if(
      of.all.begin(), of.all.end(), [](const SubstanceFacts* s) { return s->label.is != "processing aid"; }));
}

// Sulfites by what is in the wine, or, where nobody measured it, by what went in.
bool declares_sulfites(const Inputs& in, const Labelled& of) {
  if (const auto total = in.get(lot::total_so2)) {
    const auto bound = in[sulfite_declaration];
    return *total >= (bound ? bound->value : 10.0 * milligram_per_litre);
  }
  return std::any_of(of.all.begin(), of.all.end(),
                     [](const SubstanceFacts* s) { return s->label.allergen == sulfites; });
}

std::set<std::string> allergens_of(const Inputs& in, const Labelled& of) {
  std::set<std::string> found;
  for (const SubstanceFacts* one : of.all)
    if (!one->label.allergen.empty() && one->label.allergen != sulfites) found.insert(one->label.allergen);
  if (declares_sulfites(in, of)) found.emplace(sulfites);
  return found;
}

Table list_table(const Inputs& in, const Labelled& of) {
  Table table{.name = "what the label says", .columns = {{"item"}, {"words"}, {"where"}, {"by"}}, .rows = {}};
  const auto row = [&](std::string item, std::string words, const char* where, const char* by) {
    table.rows.push_back({std::move(item), std::move(words), std::string(where), std::string(by)});
  };
  constexpr auto either = "label, or electronic", law = "EU: 2019/33, Article 48a";
  row("ingredient", "grapes", either, law);
  for (const SubstanceFacts* one : of.all)
    if (one->label.is == "ingredient") row("ingredient", on_label(one->id), either, law);
  for (auto& line : additive_lines(of)) row("additive", std::move(line), either, law);
  if (std::any_of(of.all.begin(), of.all.end(), [](const SubstanceFacts* s) { return s->label.group == "gas"; }))
    row("gas", "bottled in a protective atmosphere (from memory)", either, law);
  for (const auto& allergen : allergens_of(in, of))
    row("allergen", "contains " + allergen, "label, always",
        "EU: 1169/2011, Article 21 and Annex II; US: 27 CFR 4.32(e), 4.32a");
  return table;
}

// What the lot's books hold and the list does not: of treatments the substance, of acid and sugar that some went in.
std::vector<std::string> left_out(const Inputs& in, const Labelled& of) {
  std::vector<std::string> missing;
  if (in.has(lot::treated_with))
    for (const auto& [name, amount] : in[lot::treated_with])
      if (amount > 0 && !of.has(name)) missing.push_back(name);
  const auto any = [&](auto is) {
    return std::any_of(of.all.begin(), of.all.end(), [&](const auto* one) { return is(one->label); });
  };
  if (in.get(lot::acid_added).value_or(Acidity{}) > Acidity{} &&
      !any([](const OnLabel& l) { return l.group == "acidity regulator"; }))
    missing.emplace_back("an acid");
  const bool sweetened = in.get(lot::strength_gained).value_or(Strength{}) > Strength{} ||
                         in.get(lot::tirage_gained).value_or(Strength{}) > Strength{} ||
                         in.get(lot::sweetening_gained).value_or(Strength{}) > Strength{};
  if (sweetened && !any([](const OnLabel& l) { return l.is == "ingredient"; }))
    missing.emplace_back("sugar or concentrated must");
  return missing;
}

}  // namespace

Outcome run(const Inputs& in) {
  const Labelled of = labelled(in);
  const auto missing = left_out(in, of);
  Outcome out;
  out.result(listed, coherent<Fraction>(static_cast<double>(1 + additives(of))));
  out.result(allergens, coherent<Fraction>(static_cast<double>(allergens_of(in, of).size())));
  if (!missing.empty())
    out.checks.push_back(
        {.name = "the list names every treatment of the lot",
         .holds = false,
         .source = "the lot's own books",
         .remedy = fmt::format("the lot was treated with {}: put it under 'treatments'", fmt::join(missing, ", "))});
  if (in.figures_only()) return out;
  out.tables.push_back(list_table(in, of));
  if (!in.has(lot::total_so2))
    out.note(
        "total SO2 is not known: the wording for sulfites goes by what was added. Yeast makes some of its own: "
        "measure it");
  out.note(
      "in the EU a class is followed by the name or by the number; acidity regulators and stabilising agents that may "
      "stand in for one another are joined by 'contains ... and/or', at most three, of which one was used (from "
      "memory)");
  out.note("processing aids are not listed; their allergens are, milk and egg for the EU always");
  out.note(
      "in the US there is no list of ingredients; sulfites are declared from 10 mg/L, and allergens are voluntary, but "
      "then all of them, fining agents too ('Contains: egg')");
  return out;
}

}  // namespace vatwright::label::ingredients
