#include "host/sheet/html_weigh_out.hpp"

#include "host/sheet/to_do.hpp"
#include "host/sheet/writers.hpp"

#include <fmt/format.h>

#include <cctype>

namespace vatwright {
namespace {

void lines(Markup& page, const Worksheet& sheet) {
  page.open("div",
            {{"class", "scroll"}, {"role", "region"}, {"tabindex", "0"}, {"aria-labelledby", "weigh-out-title"}});
  page.open("table", {{"class", "list cards"}});
  page.open("thead");
  page.open("tr");
  for (const char* head : {"What", "How much", "Step", "Into"}) page.element("th", head, {{"scope", "col"}});
  page.close();
  page.close();
  page.open("tbody");
  for (const auto& line : sheet.weigh_out.lines) {
    const StepSheet& step = sheet.steps[line.step];
    const Addition& addition = step.outcome.additions[line.addition];
    page.open("tr");
    page.open("th", {{"scope", "row"}});
    page.open("label");
    page.leaf("input", {{"type", "checkbox"}});
    page.text(" " + named(addition, *step.added[line.addition]));
    page.close();
    page.close();
    page.element("td", shown_amount(addition), {{"class", "figure"}, {"data-head", "how much"}});
    page.element("td", fmt::format("{}", line.step + 1), {{"data-head", "step"}});
    page.element("td", listed_destination(step, line.addition), {{"class", "wide lot"}, {"data-head", "into"}});
    page.close();
  }
  page.close();
  page.close();
  page.close();
}

}  // namespace

void write_weigh_out(Markup& page, const Worksheet& sheet) {
  const WeighOut& list = sheet.weigh_out;
  if (!wants_weigh_out(list)) return;
  page.open("section", {{"id", "weigh-out"}, {"aria-labelledby", "weigh-out-title"}});
  page.open("div", {{"class", "step-head"}});
  page.element("h2", "Weigh-out list", {{"id", "weigh-out-title"}});
  page.element("p", weigh_out_words, {{"class", "what"}});
  page.close();
  for (const auto& pair : list.apart) {
    page.open("p", {{"class", "verdict fails"}});
    page.element("strong", "Keep apart: ");
    page.text(apart_words(pair));
    page.close();
  }
  if (!list.lines.empty()) lines(page, sheet);
  for (auto words : idle_steps(sheet)) {
    words.front() = static_cast<char>(std::toupper(static_cast<unsigned char>(words.front())));
    page.element("p", words);
  }
  page.open("ul");
  for (const auto& total : list.totals) {
    page.open("li");
    if (total.additions > 1) page.element("strong", total_words(total) + ". ");
    page.text(total.substance->name() + ": " + first_cautions(*total.substance));
    page.close();
  }
  page.close();
  page.close();
}

}  // namespace vatwright
