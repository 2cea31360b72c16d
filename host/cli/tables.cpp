#include "host/cli/tables.hpp"

#include "host/bench/rule_sets.hpp"
#include "host/sheet/page.hpp"
#include "units/basis.hpp"
#include "units/catalogue.hpp"
#include "units/nearest.hpp"
#include "units/print.hpp"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <algorithm>

namespace vatwright {

Registry::Found calculation_named(House& house, const std::string& id) {
  std::string close;
  const auto found = house.registry.find(id, close);
  if (found.calculation != nullptr) return found;
  const auto hint = house.registry.hint(id, close);
  throw BadInput("no calculation '" + id + "'\n  " + (hint.empty() ? "'vatwright list' shows what there is" : hint));
}

std::vector<Holdings::RuleSetName> rule_sets_of(const House& house) {
  std::vector<Holdings::RuleSetName> out;
  for (const auto& name : rule_names(house.rules_folder)) {
    const RuleSet set = named_rules(house.rules_folder, name);
    out.push_back({name, set.title(), set.note()});
  }
  return out;
}

std::string description_table(House& house, const std::string& id) {
  constexpr int indented = 2;
  if (!id.empty()) {
    const auto found = calculation_named(house, id);
    return description_of(*found.plugin, *found.calculation).dump(indented) + "\n";
  }
  const Holdings all{
      .plugins = house.registry.all(), .substances = house.catalogue.names(), .rule_sets = rule_sets_of(house)};
  return description_of(all).dump(indented) + "\n";
}

std::string list_table(House& house) {
  std::string out;
  for (const Manifest* plugin : house.registry.all()) {
    out += fmt::format("{} {}: {}\n", plugin->name, plugin->version, plugin->help);
    for (const auto& c : plugin->calculations)
      out += fmt::format("  {:<24} {}\n", fmt::format("{}.{}", plugin->name, c.name), c.help);
  }
  return out.empty() ? "no plugin was found\n" : out + "\n'vatwright show CALCULATION' explains one.\n";
}

namespace {

std::string prefixes_of(const Symbol& symbol) {
  std::string out;
  for (const auto& prefix : prefixes())
    if (symbol.prefixes.find(prefix.text) != std::string_view::npos)
      out += (out.empty() ? "also with " : " ") + std::string(prefix.text);
  return out;
}

}  // namespace

std::string units_table(const TextStyle& style) {
  Page page(style);
  page.line(page.strong("UNITS"));
  page.wrapped("A quantity is a number and a unit: 48.0 hL, 3.42 ± 0.02, 14 ± 4 (k=2) mg/L, 5.1 g/L as tartaric acid.",
               0);
  page.wrapped("Units are multiplied with '·' or '*' and divided with '/'; a count may stand in front: lb/1000 gal.",
               0);
  page.blank();
  for (const auto& symbol : symbols()) page.row(symbol.text, symbol.help, prefixes_of(symbol));
  page.heading("COUNTED AS");
  for (const auto& basis : bases())
    page.row("as " + std::string(basis.name), std::string(basis.formula),
             basis.counts == Counts::acid_equivalents
                 ? fmt::format("{:.3f} meq in a gram", counted_per_kilogram(basis))
                 : fmt::format("{:.4f} g of nitrogen in a gram", counted_per_kilogram(basis)));
  return page.text();
}

namespace {

std::string one_substance(const Substance& s, const TextStyle& style) {
  Page page(style);
  page.line(page.strong(s.facts.id));
  if (!s.facts.formula.empty())
    page.row("formula", s.facts.formula, fmt::format("{:.3f} g/mol", s.facts.molar_mass.value() * 1e3));
  if (!s.product.empty()) page.row("product", s.product, "what stands on the sack");
  page.row("form", s.form, s.uses);
  if (!s.density.empty()) page.row("density", s.density, "");
  if (!s.active.empty())
    page.row("acts as", s.active, fmt::format("{:.2f} % of its weight", 100 * s.facts.active_share));
  if (s.active_by_strength) page.row("acts as", "by the strength on its label", "");
  for (const auto& [key, share] : s.facts.brings)
    page.row("brings " + key, fmt::format("{:.2f} % of its weight", 100 * share), "");
  page.heading("HAZARDS");
  for (const auto& h : s.hazards) page.bullet("! ", fmt::format("{} {} ({})", h.code, h.text, h.standing));
  if (s.hazards.empty())
    page.bullet("- ", "no hazard statement is known to us; the supplier's safety data sheet decides");
  page.heading("CAUTIONS");
  for (const auto& c : s.cautions) page.bullet("! ", c);
  if (!s.papers.empty()) page.heading("LABEL, REGISTER AND RULE");
  for (const auto& line : s.papers) page.bullet("- ", line);
  page.heading("HANDLING");
  for (std::size_t n = 0; n < s.handling.size(); ++n) page.bullet(fmt::format("{}. ", n + 1), s.handling[n]);
  page.blank();
  page.wrapped("Source: " + s.source, 0);
  return page.text();
}

}  // namespace

std::string substances_table(const House& house, const std::string& name, const TextStyle& style) {
  if (!name.empty()) {
    if (const Substance* s = house.catalogue.find(name)) return one_substance(*s, style);
    const auto names = house.catalogue.names();
    throw BadInput("no substance '" + name + "'\n  " + did_you_mean(name, names, "'vatwright substances' lists them"));
  }
  std::string out;
  for (const auto id : house.catalogue.names()) {
    const Substance& s = *house.catalogue.find(id);
    out += fmt::format("{:<34} {:<14} {}, {}{}\n", id, s.facts.formula, s.form, s.uses,
                       s.product.empty() ? "" : ": " + s.product);
  }
  return out +
         "\n'vatwright substances NAME' shows hazards, cautions, handling, and what label, register and rule ask "
         "for.\n";
}

std::string rules_table(House& house, const std::string& name, const TextStyle& style) {
  if (name.empty()) {
    std::string out;
    for (const auto& n : rule_names(house.rules_folder)) {
      const RuleSet set = named_rules(house.rules_folder, n);
      out += fmt::format("{:<16} {} ({})\n", n, set.title(), set.note());
    }
    return out + "\n'vatwright rules NAME' shows each figure and its article.\n";
  }
  const RuleSet set =
      is_rule_file(name) ? own_rules(name, house.rules_folder, house.registry) : named_rules(house.rules_folder, name);
  const auto held = held_topics(house.registry);
  Page page(style);
  page.line(page.strong(set.name()) + "  " + set.title());
  page.wrapped(set.note(), 0);
  if (!set.confirmed().empty())
    page.wrapped("Last held against its texts on " + set.confirmed() + "; to be read again by " + set.review_by() + ".",
                 0);
  for (const auto topic : set.topics()) {
    page.heading(topic);
    if (!std::binary_search(held.begin(), held.end(), topic))
      page.wrapped("No calculation holds these rows: to be read, and to be kept by hand.", 2);
    for (const auto& row : set.rows(topic)) {
      page.bullet("- ", std::string(in_words(row.limit.sense)) + " " + row.figure +
                            (row.when.empty() ? "" : " for " + row.when) +
                            (row.meaning.empty() ? "" : " (" + row.meaning + ")") + " [" + row.limit.source + "]");
    }
  }
  if (!set.agents().empty()) page.heading("agents that it knows for a purpose, and no others");
  for (const auto& row : set.agents())
    page.bullet("- ", "to " + row.rule.purpose + ": " + in_words(row.rule) +
                          (row.when.empty() ? "" : " for " + row.when) + " [" + row.rule.source + "]");
  if (const auto rows = set.composition(); !rows.empty()) {
    page.heading("what a blend may be made of");
    for (const auto& row : rows)
      page.bullet("- ", row.rule.name + ": " + in_words(row.rule) + (row.when.empty() ? "" : " for " + row.when) +
                            (row.meaning.empty() ? "" : " (" + row.meaning + ")") + " [" + row.rule.source + "]");
  }
  const auto terms = set.terms([](std::string_view) { return nullptr; });
  if (!terms.empty()) page.heading(terms_section);
  for (const auto& term : terms)
    page.bullet("- ", term.row.word + ": " + term.figures + (term.when.empty() ? "" : " for " + term.when) +
                          (term.row.meaning.empty() ? "" : " (" + term.row.meaning + ")") + " [" + term.row.source +
                          "]");
  return page.text();
}

}  // namespace vatwright
