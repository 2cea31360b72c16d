#include "host/cli/compute.hpp"
#include "host/cli/tables.hpp"
#include "host/sheet/page.hpp"
#include "units/print.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

namespace vatwright {
namespace {

std::string cited(const Source& source) {
  std::string out(source.title);
  if (!source.place.empty()) out += ", " + std::string(source.place);
  if (!source.standing.empty())
    out += out.empty() ? std::string(source.standing) : " (" + std::string(source.standing) + ")";
  return out;
}

std::string ranged(const Range& range, std::string_view unit) {
  return fmt::format("{:.9g} to {}", range.low, with_unit(fmt::format("{:.9g}", range.high), unit));
}

class Explanation {
 public:
  Explanation(const Manifest& plugin, const Calculation& calculation, const TextStyle& style)
      : plugin_(plugin), calculation_(calculation), page_(style) {}

  std::string write(House& house) {
    page_.line(page_.strong(fmt::format("{}.{}", plugin_.name, calculation_.name)) +
               fmt::format("  (plugin {} {})", plugin_.name, plugin_.version));
    page_.wrapped(calculation_.help, 0);
    page_.heading("INPUTS THAT MUST BE GIVEN, by the step or the lot");
    for (const auto& need : calculation_.inputs)
      if (need.required) input(need);
    for (const auto& choice : calculation_.one_of) {
      std::string names;
      for (const Input* i : choice) names += (names.empty() ? "" : ", ") + std::string(i->name);
      page_.bullet("* ", "one of: " + names);
      for (const auto& need : calculation_.inputs)
        if (std::find(choice.begin(), choice.end(), need.input) != choice.end()) input(need);
    }
    page_.heading("INPUTS THAT MAY BE GIVEN");
    for (const auto& need : calculation_.inputs)
      if (!need.required && !in_a_choice(*need.input)) input(need);
    if (!calculation_.hands_over.empty()) page_.heading("DOSED BY ANOTHER CALCULATION, where the lot moves with it");
    for (const auto& how : calculation_.hands_over)
      page_.bullet("- ", fmt::format("{}: by {}{}", fmt::join(how.choices, ", "), how.to,
                                     how.instead.empty() ? "" : fmt::format("; {}", how.instead)));
    page_.heading("RESULTS");
    for (const auto* r : calculation_.results)
      page_.row(std::string(r->name), r->unit == "1" ? "plain number" : std::string(r->unit), std::string(r->help));
    if (!calculation_.models.empty()) page_.heading("HOW FAR ITS MODELS ARE OFF, one standard uncertainty");
    for (const auto* m : calculation_.models)
      page_.row(std::string(m->name), with_unit(fmt::format("{:g}", m->standard), m->unit),
                std::string(m->help) + " [" + cited(m->source) + "]");
    changes();
    cautions(house);
    if (!calculation_.sources.empty()) page_.heading("SOURCES");
    for (const auto& source : calculation_.sources) page_.bullet("- ", cited(source));
    example(house);
    return page_.text();
  }

 private:
  bool in_a_choice(const Input& input) const {
    return std::any_of(calculation_.one_of.begin(), calculation_.one_of.end(),
                       [&](OneOf choice) { return std::find(choice.begin(), choice.end(), &input) != choice.end(); });
  }

  // One that is given within another stands below it, further in.
  void input(const Need& need, std::size_t depth = 0) {
    const Input& i = *need.input;
    std::string remark(i.help);
    if (depth > 0 && need.required) remark += "; must be given";
    for (std::size_t n = 0; n < i.choices.size(); ++n) {
      remark += (n == 0 ? ": " : " | ") + std::string(i.choices[n]);
      if (n < i.choices_help.size()) remark += " (" + std::string(i.choices_help[n]) + ")";
    }
    if (i.valid) remark += "; valid " + ranged(*i.valid, i.unit);
    if (i.usual) remark += "; usual " + ranged(*i.usual, i.unit);
    if (!need.fallback.empty()) remark += "; default " + std::string(need.fallback);
    if (const auto source = cited(i.source); !source.empty()) remark += " [" + source + "]";
    page_.row(std::string(2 * depth, ' ') + std::string(i.name), value_words(i), remark);
    for (const auto& inner : i.each) input(inner, depth + 1);
  }

  // What is written after the input's name.
  static std::string value_words(const Input& i) {
    std::string figure = i.unit == "1" ? "plain number" : std::string(i.unit);
    switch (i.kind) {
      case Kind::quantity:
        return figure;
      case Kind::choice:
        return "a word";
      case Kind::substance:
        return "a substance";
      case Kind::series:
        return std::string(i.x_unit) + " -> " + figure;
      case Kind::shares:
        return "shares by name";
      case Kind::amounts:
        return "name -> " + figure;
      case Kind::name:
        return "a name";
      case Kind::new_lot:
        return "name of a new lot";
      case Kind::date:
        return "a day";
      case Kind::bounds:
        return "bounds";
      case Kind::lots:
        return "lots";
      case Kind::rows:
        return "a list of readings";
    }
    return {};
  }

  void changes() {
    if (!calculation_.changes.empty()) page_.heading("CHANGES OF THE LOT, for the steps after it");
    for (const Input* key : calculation_.changes) page_.bullet("- ", key->name);
    if (!calculation_.limits.empty()) page_.heading("RULES THAT ARE CHECKED, when the recipe names a rule set");
    for (const auto* limit : calculation_.limits)
      page_.bullet("- ", std::string(limit->name) + ": " + std::string(limit->help));
  }

  void cautions(const House& house) {
    page_.heading("CAUTIONS");
    bool any = false;
    for (const auto& need : calculation_.inputs)
      if (need.input->kind == Kind::substance)
        for (const auto id : need.input->choices) any = caution(house, id) || any;
    for (const auto id : calculation_.reagents) any = caution(house, id) || any;
    if (!any) page_.bullet("- ", "nothing is handled; the figures are a calculation aid");
  }

  bool caution(const House& house, std::string_view id) {
    const Substance* s = house.catalogue.find(id);
    if (s == nullptr) return false;
    for (const auto& c : s->cautions) page_.bullet("! ", std::string(id) + ": " + c);
    return true;
  }

  void example(House& house) {
    if (!calculation_.example_recipe.empty()) return recipe_example(house);
    if (calculation_.example.empty()) return;
    page_.heading("WORKED EXAMPLE");
    const std::string id = fmt::format("{}.{}", plugin_.name, calculation_.name);
    std::string command = "vatwright compute " + id;
    std::vector<std::string> arguments;
    for (const auto argument : calculation_.example) {
      arguments.emplace_back(argument);
      command += " '" + arguments.back() + "'";
    }
    page_.wrapped("  " + command, 4);
    const Worksheet sheet = house.bench().run(recipe_of_arguments(id, arguments, {}));
    outcome_of(sheet);
  }

  void recipe_example(House& house) {
    page_.heading("WORKED EXAMPLE, a recipe");
    std::string_view rest = calculation_.example_recipe;
    for (auto end = rest.find('\n'); !rest.empty(); end = rest.find('\n')) {
      page_.line("  " + std::string(rest.substr(0, end)));
      rest.remove_prefix(end == std::string_view::npos ? rest.size() : end + 1);
    }
    page_.blank();
    outcome_of(house.bench().run(read_recipe(Document::read("example", std::string(calculation_.example_recipe)))));
  }

  void outcome_of(const Worksheet& sheet) {
    const Outcome& outcome = sheet.steps.back().outcome;
    for (const auto& r : outcome.results)
      page_.row(std::string(r.info->name), shown(Figure{r.info->unit, r.info->decimals, r.number, r.info->dimension}),
                "");
    for (const auto& a : outcome.additions) page_.row("addition", shown_amount(a), a.substance);
  }

  const Manifest& plugin_;
  const Calculation& calculation_;
  Page page_;
};

}  // namespace

std::string show_table(House& house, const std::string& id, const TextStyle& style) {
  const auto found = calculation_named(house, id);
  return Explanation(*found.plugin, *found.calculation, style).write(house);
}

}  // namespace vatwright
