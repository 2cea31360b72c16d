#include "plugins/label/ingredients.hpp"

#include "plugins/lab/sweetness.hpp"
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
std::string on_list(const std::string& id) {
  if (id == "rectified concentrated must" || id == "sweetening must") return "concentrated grape must";
  return id == "sweetening sugar" ? "sucrose" : id;
}

Labelled labelled(const Inputs& in) {
  Labelled found;
  if (!in.has(treatments)) return found;
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

// What the label says by one rule set, each item with where it stands, its article, and how sure that is.
class Items {
 public:
  Items(Table& table, std::string rules) : table_(table), rules_(std::move(rules)) {}

  void add(std::string item, std::string words, std::string where, const Source& by) {
    table_.rows.push_back({std::move(item), std::move(words), std::move(where), rules_, std::string(by.title),
                           std::string(by.standing.empty() ? "seen" : by.standing)});
  }

 private:
  Table& table_;
  std::string rules_;
};

constexpr char on_label[] = "label, always", either[] = "label, or electronic";

void list_for_eu(const Labelled& of, const std::set<std::string>& allergens_named, Table& table) {
  Items eu(table, "EU");
  eu.add("ingredient", "grapes", either, list_source);
  for (const SubstanceFacts* one : of.all)
    if (one->label.is == "ingredient") eu.add("ingredient", on_list(one->id), either, list_source);
  for (auto& line : additive_lines(of)) eu.add("additive", std::move(line), either, list_source);
  if (std::any_of(of.all.begin(), of.all.end(), [](const SubstanceFacts* s) { return s->label.group == "gas"; }))
    eu.add("gas", "bottled in a protective atmosphere (from memory)", either, list_source);
  for (const auto& allergen : allergens_named) eu.add("allergen", "contains " + allergen, on_label, allergens_source);
}

void list_for_us(const std::set<std::string>& allergens_named, Table& table) {
  Items us(table, "US");
  us.add("ingredient", "no list is asked for", "nowhere", no_us_list);
  for (const auto& allergen : allergens_named) {
    if (allergen == sulfites)
      us.add("allergen", "contains sulfites", on_label, us_sulfites);
    else
      us.add("allergen", "contains " + allergen, "label, voluntary", us_allergens);
  }
}

Table list_table(const Inputs& in, const Labelled& of) {
  Table table{.name = "what the label says",
              .columns = {{"item"}, {"words"}, {"where"}, {"rules"}, {"by"}, {"standing"}},
              .rows = {}};
  const auto named = allergens_of(in, of);
  list_for_eu(of, named, table);
  list_for_us(named, table);
  return table;
}

// What the lot's books hold and the list does not: of acid and sugar they say that some went in, not which.
std::vector<std::string> left_out(const Inputs& in, const Labelled& of) {
  std::vector<std::string> missing;
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
         .remedy = fmt::format("the lot was treated with {}: put it under 'treatments'", fmt::join(missing, " and "))});
  if (in.figures_only()) return out;
  if (of.all.empty())
    out.note(
        "nothing is known of what was added to the lot: neither its book nor this step names anything. The list of "
        "grapes alone is right only where nothing was");
  out.tables.push_back(list_table(in, of));
  if (!in.has(lot::total_so2))
    out.note(
        "total SO2 is not known: the wording for sulfites goes by what was added. Yeast makes some of its own: "
        "measure it");
  out.note(
      "in the EU a class is followed by the name or by the number; acidity regulators and stabilising agents that may "
      "stand in for one another are joined by 'contains ... and/or', at most three, of which one was used (from "
      "memory)");
  if (const auto sugar = in.get(lot::sugar)) {
    lab::note_sweetness(in, *sugar, in.get(lot::titratable_acidity), out);
    out.note(
        "in the EU the sweetness term stands on the label of every sparkling wine; of a still wine it may be left out "
        "(Regulation (EU) No 1308/2013, Article 119, from memory)");
  } else {
    out.note("sugar is not known, and so no sweetness term is told");
  }
  out.note("processing aids are not listed; their allergens are, milk and egg for the EU always");
  out.note(
      "in the US there is no list of ingredients; sulfites are declared from 10 mg/L, and allergens are voluntary, but "
      "then all of them, fining agents too ('Contains: egg')");
  return out;
}

}  // namespace vatwright::label::ingredients
