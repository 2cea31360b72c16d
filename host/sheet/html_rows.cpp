#include "host/sheet/html_rows.hpp"

#include "host/files/version.hpp"
#include "host/sheet/html_markup.hpp"
#include "host/sheet/html_style.hpp"
#include "host/sheet/phrases.hpp"
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

// What is to be added, each with its first cautions: no dose stands without them.
void additions(Markup& page, const Worksheet& sheet) {
  page.open("td", {{"class", "wide"}, {"data-head", "to add"}});
  for (const auto& step : sheet.steps)
    for (std::size_t i = 0; i < step.outcome.additions.size(); ++i) {
      page.open("p");
      page.element("strong", shown_amount(step.outcome.additions[i]) + " of " + named(step.outcome.additions[i]));
      page.element("small", " " + first_cautions(*step.added[i]));
      page.close();
    }
  page.close();
}

void checks(Markup& page, const Worksheet& sheet) {
  page.open("td", {{"class", "wide"}, {"data-head", "checks"}});
  if (sheet.holds()) page.text("hold");
  for (const auto& step : sheet.steps)
    for (const auto& check : step.outcome.checks)
      if (!check.holds)
        page.element("strong",
                     "FAILS: " + check.name + comparison(check) + (check.remedy.empty() ? "" : ". " + check.remedy));
  page.close();
}

}  // namespace

HtmlRows::HtmlRows(const Prepared& ready) : recipe_(ready.recipe) {
  for (std::size_t i = 0; i < ready.steps.size(); ++i)
    for (const auto* result : ready.steps[i].calculation->results)
      figures_.push_back(
          {i, result,
           ready.steps.size() == 1 ? std::string(result->name) : fmt::format("{} (step {})", result->name, i + 1)});
  for (const auto& set : ready.rules->sets()) rules_.push_back(set.title() + ": " + set.note());
}

std::string HtmlRows::head() const {
  Markup page;
  page.own("<!DOCTYPE html>\n<html lang=\"en\">");
  page.open("head");
  page.leaf("meta", {{"charset", "utf-8"}});
  page.leaf("meta", {{"http-equiv", "Content-Security-Policy"}, {"content", page_policy}});
  page.leaf("meta", {{"name", "viewport"}, {"content", "width=device-width, initial-scale=1"}});
  page.leaf("meta", {{"name", "color-scheme"}, {"content", "light dark"}});
  page.leaf("link", {{"rel", "icon"}, {"href", "data:,"}});
  page.element("title", recipe_.title + " - lots");
  page.open("style");
  page.own(html_style);
  page.own("body{max-width:none}@page{size:landscape}");
  if (figures_.size() > most_printed_figures) page.own(html_printed_cards);
  page.close();
  page.close();
  page.own("<body>");
  page.open("header");
  page.open("h1");
  page.element("small", "Many lots, one recipe");
  page.text(recipe_.title);
  page.close();
  if (!recipe_.demo.empty()) page.element("p", "Demo data: " + recipe_.demo, {{"class", "demo"}});
  page.open("dl", {{"class", "about"}});
  const auto pair = [&](std::string_view name, std::string_view words) {
    page.element("dt", name);
    page.element("dd", words);
  };
  pair("Recipe", recipe_.document.name());
  pair("Program", program_version);
  if (rules_.empty()) pair("Rules", no_rules);
  for (const auto& rules : rules_) pair("Rules", rules);
  page.close();
  page.close();
  page.own(
      "<main><div class=\"scroll\" role=\"region\" tabindex=\"0\" aria-label=\"Lots\"><table class=\"list cards\">");
  page.open("thead");
  page.open("tr");
  page.element("th", "Lot", {{"scope", "col"}});
  for (const auto& figure : figures_) page.element("th", figure.name, {{"scope", "col"}});
  for (const char* last : {"To add", "Checks"}) page.element("th", last, {{"scope", "col"}});
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
    page.open("td", {{"colspan", fmt::format("{}", figures_.size() + 2)}});
    page.element("strong", "Not computed: ");
    page.text(row.error);
    page.close();
  } else {
    for (const auto& figure : figures_)
      page.element("td", figure_of(row.sheet.steps[figure.step], figure.result), {{"data-head", figure.name}});
    additions(page, row.sheet);
    checks(page, row.sheet);
  }
  page.close();
  return page.document() + "\n";
}

std::string HtmlRows::foot(const BatchCount& count) const {
  Markup page;
  page.own("</tbody></table></div>");
  page.element("p", "Handling and all cautions of a substance: run its lot alone, or 'vatwright substances NAME'.");
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
