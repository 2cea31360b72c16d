#include "host/sheet/blocks.hpp"
#include "host/sheet/phrases.hpp"
#include "host/sheet/to_do.hpp"
#include "host/sheet/writers.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace vatwright::blocks {
namespace {

using Look = Group::Look;

// One step: what to do first, then why it can be trusted.
class Step {
 public:
  Step(std::span<const StepSheet> steps, std::size_t at) : earlier_(steps.first(at)), step_(steps[at]) {
    section_.id = fmt::format("step-{}", at + 1);
    section_.title = {fmt::format("Step {}{}", at + 1, step_.lot.empty() ? "" : ", lot "),
                      step_.lot + (step_.volume.empty() ? "" : ", " + step_.volume)};
    section_.about = fmt::format("{} ({}, plugin {})", step_.help, step_.calculation, step_.plugin);
    section_.in_contents = step_.help;
    section_.is_step = true;
  }

  Section whole() {
    failing();
    work();
    for (std::size_t i = 0; i < step_.outcome.additions.size(); ++i) addition(i);
    for (const auto* reagent : step_.reagents)
      if (const auto before = told_before(earlier_, *reagent))
        add(Pointer{told_words(*reagent, *before)});
      else
        add(handled_with_care(*reagent));
    figures();
    for (const auto& table : step_.outcome.tables) this->table(table);
    for (const auto& chart : step_.outcome.charts)
      add(Picture{&chart, fmt::format("{}-chart-{}", section_.id, &chart - step_.outcome.charts.data() + 1)});
    if (!step_.outcome.swatches.empty()) add(Swatches{"Colour, as a screen shows it", step_.outcome.swatches});
    checks();
    notes("Label, register and rule", papers_of(step_));
    opinions();
    notes("Notes", step_.outcome.notes);
    return std::move(section_);
  }

 private:
  void add(Block block) { section_.blocks.push_back(std::move(block)); }
  std::string label(std::string_view of) const { return fmt::format("{}, {}", of, section_.title.words()); }

  void failing() {
    for (const auto& check : step_.outcome.checks) {
      if (check.holds) continue;
      section_.alarm = "a check fails";
      add(Alarm{"Fails", check.name + comparison(check), check.remedy, "This check fails"});
    }
  }

  void work() {
    Group todo{Look::to_do, {"To do", ""}, {}};
    for (const auto& task : tasks(step_)) todo.blocks.emplace_back(Task{.words = task});
    if (const auto nothing = idle_words(step_); !nothing.empty()) todo.blocks.emplace_back(Remark{nothing});
    if (!todo.blocks.empty()) add(std::move(todo));
  }

  void addition(std::size_t i) {
    const Addition& a = step_.outcome.additions[i];
    const Substance& substance = *step_.added[i];
    add(Group{Look::to_do,
              {"To do", ""},
              {Task{.amount = shown_amount(a),
                    .words = fmt::format(" of {} into {}", named(a, substance), destination(step_, a)),
                    .rate = "dose " + shown(a.dose),
                    .rate_of = a.part ? " of the whole lot" : "",
                    .remark = uncertain_amount(step_, i)},
               care_of(substance)},
              i == 0 && !tasks(step_).empty()});
  }

  // What several inputs say is a table, which wants the width of the page.
  void figures() {
    Group out{Look::side_by_side, {}, {}};
    Figures used{Figures::Of::used, label("Numbers used"), {}}, expected{Figures::Of::expected, label("Expect"), {}};
    std::vector<Block> tables;
    for (const auto& one : step_.inputs) {
      auto table = input(one);
      used.rows.push_back(
          {std::string(one.input->name), table ? "see below" : shown(*one.input, one.value), origin(one.from)});
      if (table) tables.emplace_back(std::move(*table));
    }
    if (!used.rows.empty()) out.blocks.emplace_back(Group{Look::part, {"Numbers used", ""}, {std::move(used)}});
    for (auto& table : tables) out.blocks.push_back(std::move(table));
    for (std::size_t i = 0; i < step_.outcome.results.size(); ++i) {
      const ResultValue& r = step_.outcome.results[i];
      const Spread spread = spread_of(step_, i);
      expected.rows.push_back(
          {std::string(r.info->name), shown(r, spread), std::string(r.info->help) + chief(r, spread)});
    }
    if (!expected.rows.empty()) {
      for (const auto& chance : step_.chances)
        expected.rows.push_back(
            {"how likely", shown_chance(chance.probability), std::string(what_becomes_of(chance.name)) + chance.name});
      out.blocks.emplace_back(Group{Look::part, {"Expect", ""}, {std::move(expected)}});
    }
    add(std::move(out));
  }

  // Of what a chance is told: a limit is kept, what was asked for is met; a result is just in its band.
  std::string_view what_becomes_of(const std::string& name) const {
    const auto& checks = step_.outcome.checks;
    const auto check = std::find_if(checks.begin(), checks.end(), [&](const Check& one) { return one.name == name; });
    if (check == checks.end()) return "";
    return check->on != nullptr ? "kept: " : "met: ";
  }

  // An input of several lots or lines that say something of their own.
  std::optional<Group> input(const UsedInput& used) const {
    const auto& rows = used.value.rows;
    const auto own = [](const Row& row, const Input* key) {
      return std::find_if(row.own.begin(), row.own.end(), [&](const auto& said) { return said.key == key; });
    };
    Table out{Table::Of::inputs, label(used.input->name), {}, {}};
    std::vector<const Input*> keys;
    for (const auto& need : used.input->each)
      if (std::any_of(rows.begin(), rows.end(), [&](const Row& row) { return own(row, need.input) != row.own.end(); }))
        keys.push_back(need.input);
    if (rows.size() < 2 || keys.empty()) return std::nullopt;
    const bool named = used.input->kind == Kind::lots;
    if (named) out.columns.push_back({"lot", Table::Look::anything});
    for (const Input* key : keys) out.columns.push_back({std::string(key->name), Table::Look::anything});
    for (const auto& row : rows) {
      auto& cells = out.rows.emplace_back();
      if (named) cells.push_back({row.name});
      for (const Input* key : keys) {
        const auto at = own(row, key);
        cells.push_back({at == row.own.end() ? "-" : shown(*key, at->value)});
      }
    }
    return Group{Look::plain, {"", std::string(used.input->name)}, {std::move(out)}};
  }

  // A share of the whole has a bar beside its figure.
  void table(const vatwright::Table& of) {
    Table out{Table::Of::readings, label(of.name), {}, {}};
    for (const auto& column : of.columns)
      out.columns.push_back(
          {named_unit(column.name, column.unit), column.unit.empty() ? Table::Look::words : Table::Look::number});
    for (const auto& row : of.rows) {
      auto& cells = out.rows.emplace_back();
      for (std::size_t i = 0; i < row.size(); ++i) {
        auto& cell = cells.emplace_back(Table::Cell{shown_cell(row[i], of.columns[i])});
        const double* number = std::get_if<double>(&row[i]);
        if (i > 0 && number != nullptr && of.columns[i].unit == "%") cell.share = *number;
      }
    }
    add(Group{Look::plain, {"", of.name}, {std::move(out)}});
  }

  void list(std::string title, List all) {
    if (!all.lines.empty()) add(Group{Look::plain, {std::move(title), ""}, {std::move(all)}});
  }

  void checks() {
    List all{List::Of::checks};
    for (const auto& check : step_.outcome.checks)
      all.lines.push_back({.words = (asks_first(check) ? "an authorisation " : "") + check.name + comparison(check),
                           .lead = asks_first(check) ? "needs" : std::string(verdict_of(check)),
                           .source = check.source,
                           .fails = !check.holds});
    list("Checks", std::move(all));
  }

  void opinions() {
    List all{List::Of::notes};
    for (const auto& o : step_.outcome.opinions)
      all.lines.push_back(
          {.words = fmt::format("{}: {}; this sheet: {}", o.name, shown(no_finer_than_measured(o.there)),
                                shown(no_finer_than_measured(o.here))),
           .stress = difference(o),
           .source = o.source});
    list("Second opinion", std::move(all));
  }

  void notes(std::string title, const std::vector<std::string>& lines) {
    List all{List::Of::notes};
    for (const auto& line : lines) all.lines.push_back({line});
    list(std::move(title), std::move(all));
  }

  std::span<const StepSheet> earlier_;
  const StepSheet& step_;
  Section section_{};
};

Cautions cautions(const Substance& substance) {
  Cautions out{hazard_lines(substance)};
  for (const auto& caution : substance.cautions) out.lines.push_back({{}, {}, caution});
  return out;
}

}  // namespace

Block care_of(const Substance& substance) {
  List handling{List::Of::sequence};
  for (const auto& line : substance.handling) handling.lines.push_back({line});
  return Group{Look::care,
               {},
               {Group{Look::part_of_care, {"Cautions", ""}, {cautions(substance)}},
                Group{Look::part_of_care, {"Handling", ""}, {std::move(handling)}}}};
}

Block handled_with_care(const Substance& substance) {
  return Group{Look::with_care, {"Handle with care: ", substance.name()}, {cautions(substance)}};
}

Section step_of(std::span<const StepSheet> steps, std::size_t at) { return Step(steps, at).whole(); }

}  // namespace vatwright::blocks
