#include "host/sheet/html_rows.hpp"

#include "host/files/hash.hpp"
#include "host/files/version.hpp"
#include "host/sheet/html_care.hpp"
#include "host/sheet/html_style.hpp"
#include "host/sheet/phrases.hpp"
#include "host/sheet/to_do.hpp"
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

// An item to be ticked off in a row: an amount, if it is one, and words.
void tick(Markup& page, const std::string& amount, const std::string& words, const std::string& cautions = {}) {
  page.open("p");
  page.open("label");
  page.leaf("input", {{"type", "checkbox"}});
  page.text(" ");
  if (!amount.empty()) page.element("strong", amount);
  page.text(words);
  page.close();
  if (!cautions.empty()) page.element("small", " " + cautions);
  page.close();
}

// What is to be done to the lot of a row, each addition with its first cautions: no dose stands without
// them. All of them stand once, under the table.
void to_do(Markup& page, const Worksheet& sheet) {
  page.open("td", {{"class", "wide"}, {"data-head", "to add"}});
  page.text(nothing_to_add(sheet));
  for (const auto& step : sheet.steps) {
    if (step.measure_first) tick(page, {}, measuring_in_short(step));
    for (const auto& task : step.outcome.work) tick(page, {}, task);
    for (std::size_t i = 0; i < step.outcome.additions.size(); ++i) {
      const Addition& a = step.outcome.additions[i];
      tick(page, fmt::format("{} of {}", shown_amount(a), named(a, *step.added[i])),
           goes_elsewhere(a) ? " into " + destination(step, a) : "", first_cautions(*step.added[i]));
    }
  }
  page.close();
}

void checks(Markup& page, const Worksheet& sheet) {
  page.open("td", {{"class", "wide"}, {"data-head", "checks"}});
  if (sheet.holds()) page.text("hold");
  for (const auto& step : sheet.steps)
    for (const auto& check : step.outcome.checks)
      if (!check.holds)
        page.element("p",
                     "FAILS: " + check.name + comparison(check) + (check.remedy.empty() ? "" : ". " + check.remedy),
                     {{"class", "fault"}});
  page.close();
}

// What must not meet, and all that must be known of what is handled: once for all lots.
void care(Markup& page, const Handled& handled) {
  for (const auto& pair : handled.apart) {
    page.open("p", {{"class", "verdict fails"}});
    page.element("strong", "Keep apart: ");
    page.text(apart_words(pair));
    page.close();
  }
  if (handled.added.empty() && handled.reagents.empty()) return;
  page.open("section", {{"aria-labelledby", "care-title"}});
  page.open("div", {{"class", "step-head"}});
  page.element("h2", "Cautions and handling", {{"id", "care-title"}});
  page.close();
  for (const auto* substance : handled.added) {
    page.open("div", {{"class", "with-care"}});
    page.element("h3", substance->name());
    write_care(page, *substance);
    page.close();
  }
  for (const auto* reagent : handled.reagents) write_with_care(page, *reagent);
  page.close();
}

}  // namespace

HtmlRows::HtmlRows(const Prepared& ready)
    : recipe_(ready.recipe),
      name_{recipe_.title, "many lots, one recipe", sha256_of(recipe_.document.text()),
            "body{max-width:none}@page{size:landscape}"} {
  for (std::size_t i = 0; i < ready.steps.size(); ++i)
    for (const auto* result : ready.steps[i].calculation->results)
      figures_.push_back(
          {i, result,
           ready.steps.size() == 1 ? std::string(result->name) : fmt::format("{} (step {})", result->name, i + 1)});
  if (figures_.size() > most_printed_figures) name_.style += html_printed_cards;
  for (const auto& set : ready.rules->sets()) rules_.push_back(set.title() + ": " + set.note());
}

std::string HtmlRows::head() const {
  Markup page;
  write_head(page, name_);
  page.own("<body>");
  page.open("header");
  write_title(page, name_);
  write_demo(page, recipe_.demo);
  page.open("dl", {{"class", "about"}});
  const auto pair = [&](std::string_view name, std::string_view words) {
    page.element("dt", name);
    page.element("dd", words);
  };
  pair("Recipe", recipe_words(recipe_.document.name(), name_));
  pair("Program", program_version);
  if (rules_.empty()) pair("Rules", no_rules);
  for (const auto& rules : rules_) pair("Rules", rules);
  page.close();
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
  page.open("tr");
  page.element("th", row.lot.empty() ? fmt::format("row {}", row.line) : row.lot, {{"scope", "row"}});
  if (!row.error.empty()) {
    page.open("td", {{"colspan", fmt::format("{}", figures_.size() + 2)}, {"class", "wide"}});
    page.element("strong", "Not computed: ");
    page.text(row.error);
    page.close();
  } else {
    to_do(page, row.sheet);
    checks(page, row.sheet);
    for (const auto& figure : figures_)
      page.element("td", figure_of(row.sheet.steps[figure.step], figure.result), {{"data-head", figure.name}});
  }
  page.close();
  return page.document() + "\n";
}

std::string HtmlRows::foot(const BatchCount& count, const Handled& handled) const {
  Markup page;
  page.own("</tbody></table></div>");
  care(page, handled);
  page.own("</main>");
  page.open("div", {{"class", "end"}});
  page.element("p", fmt::format("{} lots: {} with a check that fails, {} that could not be computed.", count.lots,
                                count.failing, count.errors));
  page.open("footer");
  page.element("p", sheet_foot);
  page.close();
  page.close();
  page.own("</body></html>\n");
  return page.document();
}

}  // namespace vatwright
