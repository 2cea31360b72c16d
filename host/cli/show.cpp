#include "host/cli/compute.hpp"
#include "host/cli/tables.hpp"
#include "host/sheet/page.hpp"
#include "units/print.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <map>
#include <sstream>

namespace vatwright {
namespace {

const Description& all_of(const Description& of, const char* member) {
  static const Description none = Description::array();
  const auto at = of.find(member);
  return at == of.end() ? none : *at;
}

std::string cited(const Description& source) {
  const std::string place = said(source, "place"), standing = said(source, "standing");
  std::string out = said(source, "title");
  if (!place.empty()) out += ", " + place;
  if (!standing.empty()) out += out.empty() ? standing : " (" + standing + ")";
  return out;
}

std::string ranged(const Description& range, const std::string& unit) {
  return fmt::format("{:.9g} to {}", range["low"].get<double>(),
                     with_unit(fmt::format("{:.9g}", range["high"].get<double>()), unit));
}

std::string figure_of(const Description& json) {
  const auto unit = said(json, "unit");
  return unit == "1" ? "plain number" : unit;
}

// What is written after the input's name.
std::string value_words(const Description& input) {
  static const std::map<std::string, std::string, std::less<>> words{{"choice", "a word"},
                                                                     {"substance", "a substance"},
                                                                     {"shares", "shares by name"},
                                                                     {"name", "a name"},
                                                                     {"date", "a day"},
                                                                     {"new lot", "name of a new lot"},
                                                                     {"bounds", "bounds"},
                                                                     {"lots", "lots"},
                                                                     {"rows", "a list of readings"}};
  const auto kind = said(input, "kind");
  if (kind == "series") return said(input, "first unit") + " -> " + figure_of(input);
  if (kind == "amounts") return "name -> " + figure_of(input);
  const auto at = words.find(kind);
  return at == words.end() ? figure_of(input) : at->second;
}

// From what the calculation says of itself (host/describe/), and its example as it runs.
class Explanation {
 public:
  Explanation(const Description& plugin, const TextStyle& style)
      : plugin_(plugin), calculation_(plugin["calculations"].front()), page_(style) {}

  std::string write(House& house) {
    page_.line(page_.strong(said(calculation_, "id")) +
               fmt::format("  (plugin {} {})", said(plugin_, "name"), said(plugin_, "version")));
    page_.wrapped(said(calculation_, "help"), 0);
    page_.heading("INPUTS THAT MUST BE GIVEN, by the step or the lot");
    for (const auto& one : all_of(calculation_, "inputs"))
      if (one["required"] == true) input(one);
    for (const auto& choice : all_of(calculation_, "one of")) {
      page_.bullet("* ", fmt::format("one of: {}", fmt::join(choice.get<std::vector<std::string>>(), ", ")));
      for (const auto& one : all_of(calculation_, "inputs"))
        if (holds(choice, one["name"])) input(one);
    }
    page_.heading("INPUTS THAT MAY BE GIVEN");
    for (const auto& one : all_of(calculation_, "inputs"))
      if (one["required"] == false && !in_a_choice(one["name"])) input(one);
    under("DOSED BY ANOTHER CALCULATION, where the lot moves with it", "hands over", [&](const Description& how) {
      const auto instead = said(how, "instead");
      page_.bullet("- ", fmt::format("{}: by {}{}", fmt::join(how["choices"].get<std::vector<std::string>>(), ", "),
                                     said(how, "to"), instead.empty() ? "" : "; " + instead));
    });
    page_.heading("RESULTS");
    for (const auto& r : all_of(calculation_, "results")) page_.row(said(r, "name"), figure_of(r), said(r, "help"));
    under("HOW FAR ITS MODELS ARE OFF, one standard uncertainty", "models", [&](const Description& m) {
      page_.row(said(m, "name"),
                with_unit(fmt::format("{:g}", m["standard uncertainty"].get<double>()), said(m, "unit")),
                said(m, "help") + " [" + cited(m["source"]) + "]");
    });
    under("CHANGES OF THE LOT, for the steps after it", "changes",
          [&](const Description& name) { page_.bullet("- ", name.get<std::string>()); });
    under("RULES THAT ARE CHECKED, when the recipe names a rule set", "limits",
          [&](const Description& limit) { page_.bullet("- ", said(limit, "name") + ": " + said(limit, "help")); });
    cautions(house);
    under("SOURCES", "sources", [&](const Description& source) { page_.bullet("- ", cited(source)); });
    example(house);
    return page_.text();
  }

 private:
  template <class Tell>
  void under(std::string_view heading, const char* member, Tell tell) {
    const Description& all = all_of(calculation_, member);
    if (!all.empty()) page_.heading(heading);
    for (const auto& one : all) tell(one);
  }

  static bool holds(const Description& names, const Description& name) {
    return std::find(names.begin(), names.end(), name) != names.end();
  }

  bool in_a_choice(const Description& name) const {
    const Description& choices = all_of(calculation_, "one of");
    return std::any_of(choices.begin(), choices.end(), [&](const Description& choice) { return holds(choice, name); });
  }

  // One that is given within another stands below it, further in.
  void input(const Description& i, std::size_t depth = 0) {
    std::string remark = said(i, "help");
    if (depth > 0 && i["required"] == true) remark += "; must be given";
    bool first = true;
    for (const auto& choice : all_of(i, "choices")) {
      remark += (first ? ": " : " | ") + said(choice, "name");
      if (const auto help = said(choice, "help"); !help.empty()) remark += " (" + help + ")";
      first = false;
    }
    for (const char* range : {"valid", "usual"})
      if (i.contains(range)) remark += fmt::format("; {} {}", range, ranged(i[range], said(i, "unit")));
    if (const auto fallback = said(i, "default"); !fallback.empty()) remark += "; default " + fallback;
    if (i.contains("source")) remark += " [" + cited(i["source"]) + "]";
    page_.row(std::string(2 * depth, ' ') + said(i, "name"), value_words(i), remark);
    for (const auto& inner : all_of(i, "each")) input(inner, depth + 1);
  }

  void cautions(const House& house) {
    page_.heading("CAUTIONS");
    bool any = false;
    for (const auto& one : all_of(calculation_, "inputs"))
      if (one["kind"] == "substance")
        for (const auto& choice : all_of(one, "choices")) any = caution(house, said(choice, "name")) || any;
    for (const auto& id : all_of(calculation_, "reagents")) any = caution(house, id.get<std::string>()) || any;
    if (!any) page_.bullet("- ", "nothing is handled; the figures are a calculation aid");
  }

  bool caution(const House& house, const std::string& id) {
    const Substance* s = house.catalogue.find(id);
    if (s == nullptr) return false;
    for (const auto& c : s->cautions) page_.bullet("! ", fmt::format("{}: {}", id, c));
    return true;
  }

  void example(House& house) {
    const Description& example = all_of(calculation_, "example");
    if (example.contains("recipe")) return recipe_example(house, said(example, "recipe"));
    if (!example.contains("arguments")) return;
    page_.heading("WORKED EXAMPLE");
    const auto id = said(calculation_, "id");
    const auto arguments = example["arguments"].get<std::vector<std::string>>();
    std::string command = "vatwright compute " + id;
    for (const auto& argument : arguments) command += fmt::format(" '{}'", argument);
    page_.wrapped("  " + command, 4);
    outcome_of(house.bench().run(recipe_of_arguments(id, arguments, {})));
  }

  void recipe_example(House& house, const std::string& recipe) {
    page_.heading("WORKED EXAMPLE, a recipe");
    std::istringstream lines(recipe);
    for (std::string line; std::getline(lines, line);) page_.line("  " + line);
    page_.blank();
    outcome_of(house.bench().run(read_recipe(Document::read("example", recipe))));
  }

  void outcome_of(const Worksheet& sheet) {
    const Outcome& outcome = sheet.steps.back().outcome;
    for (const auto& r : outcome.results)
      page_.row(std::string(r.info->name), shown(Figure{r.info->unit, r.info->decimals, r.number, r.info->dimension}),
                "");
    for (const auto& a : outcome.additions) page_.row("addition", shown_amount(a), a.substance);
  }

  const Description& plugin_;
  const Description& calculation_;
  Page page_;
};

}  // namespace

std::string show_table(House& house, const std::string& id, const TextStyle& style) {
  const auto found = calculation_named(house, id);
  const Description described = description_of(*found.plugin, *found.calculation);
  return Explanation(described["plugins"].front(), style).write(house);
}

}  // namespace vatwright
