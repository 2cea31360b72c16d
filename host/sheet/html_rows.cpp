#include "host/sheet/html_rows.hpp"

#include "host/bench/rule_sets.hpp"
#include "host/files/hash.hpp"
#include "host/files/version.hpp"
#include "host/sheet/html_style.hpp"
#include "host/sheet/phrases.hpp"
#include "host/sheet/to_do.hpp"
#include "host/sheet/write_blocks.hpp"
#include "host/sheet/writers.hpp"

#include <fmt/format.h>

namespace vatwright {
namespace {

// A landscape page holds so many columns of figures with their ± beside what is to be done.
constexpr std::size_t most_printed_figures = 5;

// One cell of a row: the figure with its ±, or nothing.
std::string figure_of(const StepSheet& step, const ResultInfo* wanted) {
  for (std::size_t i = 0; i < step.outcome.results.size(); ++i)
    if (step.outcome.results[i].info == wanted) return shown(step.outcome.results[i], spread_of(step, i));
  return {};
}

// An item to be ticked off in a row: its step, an amount, if it is one, and words.
void tick(Markup& page, const std::string& step, const std::string& amount, const std::string& words,
          const std::string& cautions = {}) {
  page.open("p");
  page.open("label");
  page.leaf("input", {{"type", "checkbox"}});
  page.text(" " + step);
  if (!amount.empty()) page.element("strong", amount);
  page.text(words);
  page.close();
  if (!cautions.empty()) page.element("small", " " + cautions);
  page.close();
}

// What the doses of a row rest on, and which of it is unusual.
void read(Markup& page, const Worksheet& sheet) {
  if (const auto words = read_in_a_row(sheet); !words.empty()) page.element("small", "read: " + words);
  for (const auto& words : unusual_in_a_row(sheet)) page.element("small", words, {{"class", "fault"}});
}

// What is to be done to the lot of a row, each addition with its first cautions: no dose stands without
// them. All of them stand once, under the table.
void to_do(Markup& page, const RowSheet& row) {
  const Worksheet& sheet = row.sheet;
  page.open("td", {{"class", "wide"}, {"data-head", "to add"}});
  for (const auto& words : idle_in_a_row(sheet)) page.element("p", words);
  std::vector<bool> begun(sheet.steps.size());
  const auto begin = [&](std::size_t n) {
    const StepSheet& step = sheet.steps[n];
    const std::string in_step = step_in_a_row(sheet, n);
    if (begun[n]) return;
    begun[n] = true;
    if (step.made_first) tick(page, in_step, {}, making_first(step));
    if (step.measure_first) tick(page, in_step, {}, measuring_in_short(step));
    for (const auto& task : step.outcome.work) tick(page, in_step, {}, task);
  };
  // Additions are in the order of the work, and what a step asks for stands before its first; where it adds nothing,
  // before all of the steps after it.
  const auto begin_without_additions = [&](std::size_t past) {
    for (std::size_t n = 0; n < past; ++n)
      if (sheet.steps[n].outcome.additions.empty()) begin(n);
  };
  for (const auto& [n, i] : sheet.weigh_out.lines) {
    const StepSheet& step = sheet.steps[n];
    const Addition& a = step.outcome.additions[i];
    begin_without_additions(n);
    begin(n);
    tick(page, step_in_a_row(sheet, n), fmt::format("{} of {}", shown_amount(a), named(a, *step.added[i])),
         destination_in_a_row(row.lot, step, a) + ", " + shown(a.dose), first_cautions(*step.added[i]));
  }
  begin_without_additions(sheet.steps.size());
  read(page, sheet);
  page.close();
}

void checks(Markup& page, const Worksheet& sheet) {
  const auto asking = asking_first(sheet);
  if (sheet.holds() && asking.empty()) return page.element("td", "hold", {{"data-head", "checks"}});
  page.open("td", {{"class", "wide"}, {"data-head", "checks"}});
  for (const auto& step : sheet.steps)
    for (const auto& check : step.outcome.checks)
      if (!check.holds)
        page.element("p",
                     "FAILS: " + check.name + comparison(check) + (check.remedy.empty() ? "" : ": " + check.remedy),
                     {{"class", "fault"}});
  for (const auto& first : asking) page.element("p", first);
  page.close();
}

// What a row is called, in its own line and wherever the head names it.
std::string called(std::size_t line, const std::string& lot) { return lot.empty() ? fmt::format("row {}", line) : lot; }
std::string anchor(std::size_t line) { return fmt::format("row-{}", line); }

std::string verdict_words(const BatchCount& count) {
  std::vector<std::string> words;
  const auto say = [&](std::size_t n, std::string_view of_one, std::string_view of_several) {
    if (n > 0) words.push_back(fmt::format("{} {}", n, n == 1 ? of_one : of_several));
  };
  say(count.passing(), "passes every check", "pass every check");
  say(count.unchecked, "has nothing to check", "have nothing to check");
  say(count.failing, "FAILS a check", "FAIL a check");
  say(count.errors, "is NOT COMPUTED", "are NOT COMPUTED");
  return fmt::format("{}", fmt::join(words, "; "));
}

// Every one of them is found from here.
void links(Markup& page, std::string_view what, const std::vector<RowName>& rows) {
  if (rows.empty()) return;
  page.open("p");
  page.element("strong", what);
  for (const auto& row : rows) {
    page.text(&row == &rows.front() ? " " : ", ");
    page.element("a", called(row.line, row.lot), {{"href", "#" + anchor(row.line)}});
  }
  page.close();
}

void verdict(Markup& page, const BatchVerdict& verdict) {
  const BatchCount& count = verdict.count;
  const bool amiss = count.failing + count.errors > 0;
  page.open("div", {{"class", amiss ? "verdict fails" : "verdict"}});
  page.open("p");
  page.text(fmt::format("{} lot{}: ", count.lots, count.lots == 1 ? "" : "s"));
  page.element("strong", verdict_words(count));
  if (amiss) page.text(fmt::format(": {}", before_work));
  page.close();
  links(page, "A check fails:", verdict.failing);
  links(page, "Not computed:", verdict.refused);
  links(page, "A reading is unusual:", verdict.unusual);
  page.close();
}

// What must not meet: before any dose.
void apart(Markup& page, const Handled& handled) {
  for (const auto& pair : handled.apart) write_blocks(page, {blocks::Alarm{"Keep apart", apart_words(pair)}});
}

// All that must be known of what is handled: once for all lots.
void care(Markup& page, const Handled& handled) {
  if (handled.added.empty() && handled.reagents.empty()) return;
  page.open("section", {{"aria-labelledby", "care-title"}});
  page.open("div", {{"class", "step-head"}});
  page.element("h2", "Cautions and handling", {{"id", "care-title"}});
  page.close();
  for (const auto* substance : handled.added) {
    page.open("div", {{"class", "with-care"}});
    page.element("h3", substance->name());
    write_blocks(page, {blocks::care_of(*substance)});
    for (const auto& line : substance->papers) page.element("p", line);
    page.close();
  }
  for (const auto* reagent : handled.reagents) write_blocks(page, {blocks::handled_with_care(*reagent)});
  page.close();
}

}  // namespace

HtmlRows::HtmlRows(const Prepared& ready, bool uncertain, std::vector<std::string> carried)
    : recipe_(ready.recipe),
      name_{recipe_.title, "many lots, one recipe", sha256_of(recipe_.document.text()),
            "body{max-width:none}@page{size:landscape}"},
      carried_(std::move(carried)),
      uncertain_(uncertain) {
  for (std::size_t i = 0; i < ready.steps.size(); ++i)
    for (const auto* result : ready.steps[i].calculation->results)
      figures_.push_back({i, result,
                          ready.steps.size() == 1 ? std::string(result->name)
                                                  : fmt::format("{} (step\u00a0{})", result->name, i + 1)});
  if (figures_.size() > most_printed_figures) name_.style += html_printed_cards;
  for (const auto& set : ready.rules->sets()) rules_.push_back(told_on_a_sheet(set, rules_.empty()));
}

std::string HtmlRows::head(const BatchVerdict& all) const {
  Markup page;
  write_head(page, name_);
  page.own("<body>");
  page.open("header");
  write_title(page, name_);
  write_demo(page, recipe_.demo);
  verdict(page, all);
  page.open("dl", {{"class", "about"}});
  const auto pair = [&](std::string_view name, std::string_view words) {
    page.element("dt", name);
    page.element("dd", words);
  };
  pair("Recipe", recipe_words(recipe_.document.name(), name_.recipe_sha256));
  if (!recipe_.date.empty()) pair("Date", recipe_.date);
  if (!recipe_.by.empty()) pair("By", recipe_.by);
  pair("Program", program_version);
  if (rules_.empty()) pair("Rules", no_rules);
  for (const auto& rules : rules_) pair("Rules", rules);
  if (uncertain_) pair("±", what_plus_minus_is);
  page.close();
  apart(page, all.handled);
  page.close();
  page.own(
      "<main><div class=\"scroll\" role=\"region\" tabindex=\"0\" aria-label=\"Lots\"><table class=\"list cards\">");
  page.open("thead");
  page.open("tr");
  for (const char* first : {"Lot", "To add", "Checks"}) page.element("th", first, {{"scope", "col"}});
  for (const auto& figure : figures_) page.element("th", figure.name, {{"scope", "col"}});
  page.close();
  page.close();
  page.own("<tbody>\n");
  return page.document();
}

std::string HtmlRows::row(const RowSheet& row) const {
  Markup page;
  page.open("tr", {{"id", anchor(row.line)}});
  page.open("th", {{"scope", "row"}});
  page.text(called(row.line, row.lot));
  for (std::size_t i = 0; i < carried_.size(); ++i)
    if (!row.carried[i].empty()) page.element("small", " " + carried_[i] + " " + row.carried[i]);
  // Beside the name, so that no dose is read before it.
  if (row.error.empty() && !row.sheet.holds()) page.element("small", "a check FAILS", {{"class", "fault"}});
  page.close();
  if (!row.error.empty()) {
    page.open("td", {{"colspan", fmt::format("{}", figures_.size() + 2)}, {"class", "wide"}});
    page.element("strong", "Not computed: ");
    page.text(row.error);
    page.close();
  } else {
    to_do(page, row);
    checks(page, row.sheet);
    for (const auto& figure : figures_)
      page.element("td", figure_of(row.sheet.steps[figure.step], figure.result), {{"data-head", figure.name}});
  }
  page.close();
  return page.document() + "\n";
}

std::string HtmlRows::foot(const BatchVerdict& all) const {
  Markup page;
  page.own("</tbody></table></div>");
  care(page, all.handled);
  page.own("</main>");
  write_end(page);
  page.own("</body></html>\n");
  return page.document();
}

}  // namespace vatwright
