#include "host/sheet/html_step.hpp"

#include "host/sheet/chart.hpp"
#include "host/sheet/html_care.hpp"
#include "host/sheet/phrases.hpp"
#include "host/sheet/to_do.hpp"
#include "host/sheet/writers.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace vatwright {
namespace {

// A table that is wider than the page scrolls within its box, also by keyboard.
void open_table(Markup& page, std::string_view name, std::string_view kind = "plain") {
  page.open("div", {{"class", "scroll"}, {"role", "region"}, {"tabindex", "0"}, {"aria-label", name}});
  page.open("table", {{"class", kind}});
}

void close_table(Markup& page) {
  page.close();
  page.close();
}

void head_row(Markup& page, const std::vector<std::string>& names) {
  page.open("thead");
  page.open("tr");
  for (const auto& name : names) page.element("th", name, {{"scope", "col"}});
  page.close();
  page.close();
}

// A table of more columns, or of more that hold words, becomes a list of cards there.
constexpr std::size_t most_on_a_telephone = 4, most_of_words = 2;

bool is_wide(const Table& table) {
  const auto words =
      std::count_if(table.columns.begin(), table.columns.end(), [](const Column& c) { return c.unit.empty(); });
  return table.columns.size() > most_on_a_telephone || static_cast<std::size_t>(words) > most_of_words;
}

class StepPart {
 public:
  StepPart(Markup& page, std::span<const StepSheet> steps, std::size_t at)
      : page_(page),
        earlier_(steps.first(at)),
        step_(steps[at]),
        id_(fmt::format("step-{}", at + 1)),
        title_(step_title(at + 1, step_)) {}

  void write() {
    page_.open("section", {{"id", id_}, {"class", "step"}, {"aria-labelledby", id_ + "-title"}});
    page_.open("div", {{"class", "step-head"}});
    page_.element("h2", title_, {{"id", id_ + "-title"}});
    page_.element("p", fmt::format("{} ({}, plugin {})", step_.help, step_.calculation, step_.plugin),
                  {{"class", "what"}});
    page_.close();
    for (const auto& check : step_.outcome.checks)
      if (!check.holds) failing(check);
    work();
    for (std::size_t i = 0; i < step_.outcome.additions.size(); ++i) addition(i);
    for (const auto* reagent : step_.reagents)
      if (const auto before = told_before(earlier_, *reagent))
        page_.element("p", told_words(*reagent, *before), {{"class", "fault"}});
      else
        write_with_care(page_, *reagent);
    page_.open("div", {{"class", "figures"}});
    inputs();
    results();
    page_.close();
    input_tables();
    for (const auto& table : step_.outcome.tables) this->table(table);
    charts();
    swatches();
    checks();
    papers();
    opinions();
    notes();
    page_.close();
  }

 private:
  void failing(const Check& check) {
    page_.open("div", {{"class", "failing"}});
    page_.element("h3", "This check fails");
    page_.open("p");
    page_.element("strong", check.name + comparison(check));
    page_.close();
    if (!check.remedy.empty()) page_.element("p", check.remedy);
    page_.close();
  }

  void work() {
    const auto before = tasks(step_);
    const auto nothing = idle_words(step_);
    if (before.empty() && nothing.empty()) return;
    page_.open("div", {{"class", "to-do"}});
    page_.element("h3", "To do");
    for (const auto& task : before) {
      page_.open("label", {{"class", "dose"}});
      page_.leaf("input", {{"type", "checkbox"}});
      page_.element("span", task);
      page_.close();
    }
    if (!nothing.empty()) page_.element("p", nothing);
    page_.close();
  }

  void addition(std::size_t i) {
    const Addition& a = step_.outcome.additions[i];
    const Substance& substance = *step_.added[i];
    page_.open("div", {{"class", "to-do"}});
    page_.element("h3", "To do");
    page_.open("label", {{"class", "dose"}});
    page_.leaf("input", {{"type", "checkbox"}});
    page_.open("span");
    page_.element("strong", shown_amount(a), {{"class", "amount"}});
    page_.text(fmt::format(" of {} into {} ", named(a, substance), destination(step_, a)));
    page_.element("span", fmt::format("({})", dose_words(a)), {{"class", a.part ? "" : "rate"}});
    page_.close();
    page_.close();
    if (const auto words = uncertain_amount(step_, i); !words.empty()) page_.element("p", words);
    write_care(page_, substance);
    page_.close();
  }

  void inputs() {
    if (step_.inputs.empty()) return;
    page_.open("div");
    page_.element("h3", "Numbers used");
    open_table(page_, "Numbers used, " + title_, "plain used");
    head_row(page_, {"Number", "Value", "From"});
    page_.open("tbody");
    for (const auto& used : step_.inputs) {
      page_.open("tr");
      page_.element("th", used.input->name, {{"scope", "row"}});
      page_.element("td", input_table(used).empty() ? shown(*used.input, used.value) : std::string(in_table));
      page_.element("td", origin(used.from), {{"class", "aside"}});
      page_.close();
    }
    page_.close();
    close_table(page_);
    page_.close();
  }

  void input_tables() {
    for (const auto& used : step_.inputs) {
      const auto rows = input_table(used);
      if (rows.empty()) continue;
      page_.element("h3", used.input->name);
      open_table(page_, std::string(used.input->name) + ", " + title_, "list cards");
      head_row(page_, rows.front());
      page_.open("tbody");
      for (std::size_t i = 1; i < rows.size(); ++i) {
        page_.open("tr");
        for (std::size_t n = 0; n < rows[i].size(); ++n)
          if (n == 0)
            page_.element("th", rows[i][n], {{"scope", "row"}});
          else
            page_.element("td", rows[i][n], {{"data-head", rows.front()[n]}});
        page_.close();
      }
      page_.close();
      close_table(page_);
    }
  }

  void results() {
    if (step_.outcome.results.empty()) return;
    page_.open("div");
    page_.element("h3", "Expect");
    open_table(page_, "Expect, " + title_, "plain expect");
    head_row(page_, {"Figure", "Value"});
    page_.open("tbody");
    for (std::size_t i = 0; i < step_.outcome.results.size(); ++i) {
      const ResultValue& r = step_.outcome.results[i];
      const Spread spread = spread_of(step_, i);
      page_.open("tr");
      page_.open("th", {{"scope", "row"}});
      page_.text(r.info->name);
      page_.element("small", std::string(r.info->help) + chief(r, spread));
      page_.close();
      page_.element("td", shown(r, spread), {{"class", "figure"}});
      page_.close();
    }
    for (const auto& chance : step_.chances) {
      page_.open("tr");
      page_.open("th", {{"scope", "row"}});
      page_.text("chance");
      page_.element("small", chance.name);
      page_.close();
      page_.element("td", shown_chance(chance.probability), {{"class", "figure"}});
      page_.close();
    }
    page_.close();
    close_table(page_);
    page_.close();
  }

  void table(const Table& table) {
    page_.element("h3", table.name);
    open_table(page_, table.name + ", " + title_, is_wide(table) ? "readings cards" : "readings");
    page_.open("thead");
    page_.open("tr");
    for (const auto& column : table.columns)
      page_.element("th", named_unit(column.name, column.unit), {{"scope", "col"}, {"class", aligned(column)}});
    page_.close();
    page_.close();
    page_.open("tbody");
    for (const auto& row : table.rows) {
      page_.open("tr");
      for (std::size_t i = 0; i < row.size(); ++i) {
        const double* number = std::get_if<double>(&row[i]);
        const auto words = shown_cell(row[i], table.columns[i]);
        if (i > 0 && number != nullptr && table.columns[i].unit == "%")
          share(table.columns[i], *number, words);
        else
          cell(i, table.columns[i], words);
      }
      page_.close();
    }
    page_.close();
    close_table(page_);
  }

  static std::string_view aligned(const Column& column) { return column.unit.empty() ? "words" : "number"; }

  void cell(std::size_t index, const Column& column, std::string_view words) {
    if (index == 0)
      page_.element("th", words, {{"scope", "row"}});
    else
      page_.element("td", words, {{"class", aligned(column)}, {"data-head", named_unit(column.name, column.unit)}});
  }

  // A share of the whole has a bar beside its figure.
  void share(const Column& column, double number, std::string_view words) {
    page_.element("td", words,
                  {{"class", "number share"},
                   {"data-head", named_unit(column.name, column.unit)},
                   {"style", fmt::format("--share:{:.1f}%", std::clamp(100 * number, 0.0, 100.0))}});
  }

  void charts() {
    for (std::size_t i = 0; i < step_.outcome.charts.size(); ++i)
      write_chart(page_, step_.outcome.charts[i], fmt::format("{}-chart-{}", id_, i + 1));
  }

  void swatches() {
    if (step_.outcome.swatches.empty()) return;
    page_.element("h3", "Colour, as a screen shows it");
    page_.open("div", {{"class", "swatches"}});
    for (const auto& s : step_.outcome.swatches) {
      const std::string code = fmt::format("#{:02x}{:02x}{:02x}", s.red, s.green, s.blue);
      page_.open("figure", {{"class", "swatch"}});
      page_.open("div", {{"role", "img"}, {"aria-label", s.name + ", " + code}, {"style", "background:" + code}});
      page_.close();
      page_.open("figcaption");
      page_.text(s.name);
      page_.element("small", code);
      page_.close();
      page_.close();
    }
    page_.close();
  }

  void checks() {
    if (step_.outcome.checks.empty()) return;
    page_.element("h3", "Checks");
    page_.open("ul", {{"class", "checks"}});
    for (const auto& check : step_.outcome.checks) {
      page_.open("li");
      page_.element("b", asks_first(check) ? "needs" : std::string(verdict_of(check)),
                    {{"class", check.holds ? "mark holds" : "mark fails"}});
      page_.open("span");
      page_.text((asks_first(check) ? "an authorisation " : "") + check.name + comparison(check));
      if (!check.source.empty()) page_.element("small", check.source);
      page_.close();
      page_.close();
    }
    page_.close();
  }

  void papers() {
    const auto lines = papers_of(step_);
    if (lines.empty()) return;
    page_.element("h3", "Label, register and rule");
    page_.open("ul");
    for (const auto& line : lines) page_.element("li", line);
    page_.close();
  }

  void opinions() {
    if (step_.outcome.opinions.empty()) return;
    page_.element("h3", "Second opinion");
    page_.open("ul");
    for (const auto& o : step_.outcome.opinions) {
      page_.open("li");
      page_.text(fmt::format("{}: {}; this sheet: {}", o.name, shown(no_finer_than_measured(o.there)),
                             shown(no_finer_than_measured(o.here))));
      if (o.matters) page_.element("strong", difference(o));
      page_.element("small", o.source);
      page_.close();
    }
    page_.close();
  }

  void notes() {
    if (step_.outcome.notes.empty()) return;
    page_.element("h3", "Notes");
    page_.open("ul");
    for (const auto& note : step_.outcome.notes) page_.element("li", note);
    page_.close();
  }

  Markup& page_;
  std::span<const StepSheet> earlier_;
  const StepSheet& step_;
  std::string id_, title_;
};

}  // namespace

std::string step_title(std::size_t number, const StepSheet& step) {
  return fmt::format("Step {}{}{}", number, step.lot.empty() ? "" : ", lot " + step.lot,
                     step.volume.empty() ? "" : ", " + step.volume);
}

void write_step(Markup& page, std::span<const StepSheet> steps, std::size_t at) { StepPart(page, steps, at).write(); }

}  // namespace vatwright
