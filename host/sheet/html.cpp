// The worksheet as a page for a browser and a printer, in the order of the text sheet.
#include "host/files/version.hpp"
#include "host/plugin/lot.hpp"
#include "host/sheet/html_page.hpp"
#include "host/sheet/html_step.hpp"
#include "host/sheet/html_weigh_out.hpp"
#include "host/sheet/phrases.hpp"
#include "host/sheet/writers.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace vatwright {
namespace {

std::size_t failing(const StepSheet& step) {
  const auto& checks = step.outcome.checks;
  return static_cast<std::size_t>(
      std::count_if(checks.begin(), checks.end(), [](const Check& check) { return !check.holds; }));
}

class HtmlSheet {
 public:
  explicit HtmlSheet(const Worksheet& sheet)
      : sheet_(sheet), name_{sheet.title, "cellar worksheet", sheet.recipe_sha256} {}

  std::string write() {
    write_head(page_, name_);
    page_.open("body");
    page_.element("a", "To the work", {{"class", "skip"}, {"href", "#work"}});
    banner();
    contents();
    page_.open("main", {{"id", "work"}});
    write_weigh_out(page_, sheet_);
    for (std::size_t i = 0; i < sheet_.steps.size(); ++i) write_step(page_, sheet_.steps, i);
    lots();
    page_.close();
    write_end(page_);
    page_.close();
    page_.close();
    return page_.document();
  }

 private:
  void banner() {
    page_.open("header");
    write_title(page_, name_);
    write_demo(page_, sheet_.demo);
    verdict();
    page_.open("dl", {{"class", "about"}});
    pair("Recipe", recipe_words(sheet_.recipe_name, name_));
    if (!sheet_.date.empty()) pair("Date", sheet_.date);
    if (!sheet_.by.empty()) pair("By", sheet_.by);
    pair("Program", program_version);
    if (sheet_.rules.empty()) pair("Rules", no_rules);
    for (const auto& rules : sheet_.rules) pair("Rules", rules.note);
    for (const auto& language : sheet_.languages) pair("Language", language.note);
    if (const auto words = uncertainty_words(sheet_.uncertainty); !words.empty()) pair("±", words);
    for (const auto& note : sheet_.uncertainty.notes) pair("±", note);
    page_.close();
    page_.close();
  }

  void pair(std::string_view name, std::string_view words) {
    page_.element("dt", name);
    page_.element("dd", words);
  }

  void verdict() {
    const CheckCount verdict = count_checks(sheet_);
    const bool fails = verdict.failing != 0;
    page_.open("p", {{"class", fails ? "verdict fails" : "verdict"}});
    page_.text("Checks: ");
    page_.element("strong", verdict.words());
    if (fails) page_.text(fmt::format(": {}", before_work));
    page_.close();
  }

  void contents() {
    if (sheet_.steps.size() < 2) return;
    page_.open("nav", {{"aria-label", "Steps"}});
    page_.open("ol");
    for (std::size_t i = 0; i < sheet_.steps.size(); ++i) {
      const auto& step = sheet_.steps[i];
      page_.open("li");
      page_.element("a", step_title(i + 1, step), {{"href", fmt::format("#step-{}", i + 1)}});
      page_.text(": " + step.help);
      if (failing(step) != 0) page_.element("strong", "; a check fails");
      page_.close();
    }
    page_.close();
    page_.close();
  }

  void lots() {
    if (!shows_lots(sheet_)) return;
    page_.open("section", {{"id", "lots"}, {"aria-labelledby", "lots-title"}});
    page_.open("div", {{"class", "step-head"}});
    page_.element("h2", "Lots before and after", {{"id", "lots-title"}});
    page_.element("p", "Predicted: measure again before the next work.", {{"class", "what"}});
    page_.close();
    for (const auto& lot : sheet_.lots)
      if (!lot.before.empty() || !lot.after.empty()) this->lot(lot);
    page_.close();
  }

  void lot(const LotSheet& lot) {
    page_.element("h3", "Lot " + lot_title(lot));
    page_.open("div", {{"class", "scroll"}, {"role", "region"}, {"tabindex", "0"}, {"aria-label", "Lot " + lot.name}});
    page_.open("table", {{"class", "plain lot-table"}});
    page_.open("thead");
    page_.open("tr");
    page_.element("th", "Analysis", {{"scope", "col"}});
    if (lot.made.empty()) page_.element("th", "Before", {{"scope", "col"}});
    page_.element("th", "After", {{"scope", "col"}});
    page_.close();
    page_.close();
    page_.open("tbody");
    for (const Input* key : lot::keys)
      if (const auto [before, after] = lot.of(*key); before != nullptr || after != nullptr)
        analysis(lot, *key, before, after);
    page_.close();
    page_.close();
    page_.close();
  }

  void analysis(const LotSheet& lot, const Input& key, const Value* before, const Value* after) {
    page_.open("tr");
    page_.element("th", key.name, {{"scope", "row"}});
    if (lot.made.empty()) {
      const auto [was, is] = shown_change(key, before, after);
      page_.element("td", was);
      if (was == is)
        page_.element("td", "the same", {{"class", "aside"}});
      else
        page_.element("td", is, {{"class", "figure"}});
    } else {
      page_.element("td", shown(key, *after));
    }
    page_.close();
  }

  const Worksheet& sheet_;
  PageName name_;
  Markup page_;
};

}  // namespace

std::string write_html(const Worksheet& sheet) { return HtmlSheet(sheet).write(); }

}  // namespace vatwright
