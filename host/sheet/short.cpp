#include "host/sheet/short.hpp"

#include "host/sheet/html_page.hpp"
#include "host/sheet/page.hpp"
#include "host/sheet/phrases.hpp"
#include "host/sheet/to_do.hpp"
#include "host/sheet/writers.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <set>

namespace vatwright {
namespace {

std::string at_step(const Worksheet& sheet, std::size_t step, const std::string& words) {
  return sheet.steps.size() > 1 ? fmt::format("{} (step {})", words, step + 1) : words;
}

// The work of a step, once, before the first of its additions.
class Told {
 public:
  Told(const Worksheet& sheet, ShortSheet& out) : sheet_(sheet), out_(out) {}

  void up_to(std::size_t step) {
    for (; next_ <= step && next_ < sheet_.steps.size(); ++next_) {
      const StepSheet& s = sheet_.steps[next_];
      for (const auto& task : tasks(s)) out_.lines.push_back({at_step(sheet_, next_, task)});
      if (const auto idle = idle_words(s); !idle.empty())
        out_.lines.push_back({at_step(sheet_, next_, (s.lot.empty() ? "" : "lot " + s.lot + ": ") + idle), false});
      if (!s.doses && !asks_for_something(s.outcome)) figures(s);
    }
  }

 private:
  void figures(const StepSheet& s) {
    for (std::size_t i = 0; i < s.outcome.results.size(); ++i)
      out_.figures.push_back(fmt::format("{} {}{}", s.outcome.results[i].info->name,
                                         shown(s.outcome.results[i], spread_of(s, i)),
                                         s.lot.empty() ? "" : " (lot " + s.lot + ")"));
  }

  const Worksheet& sheet_;
  ShortSheet& out_;
  std::size_t next_ = 0;
};

void take_care(const Worksheet& sheet, ShortSheet& out) {
  std::vector<const Substance*> all;
  const auto remember = [&](const Substance* one) {
    if (std::find(all.begin(), all.end(), one) == all.end()) all.push_back(one);
  };
  for (const auto& step : sheet.steps) {
    for (const auto* one : step.added) remember(one);
    for (const auto* one : step.reagents) remember(one);
  }
  for (const auto* one : all) out.care.push_back({one->name(), all_cautions(*one)});
  if (out.care.size() < 2) return;
  const auto by_all = [&](const std::string& line) {
    return std::all_of(out.care.begin(), out.care.end(), [&](const ShortSheet::Care& care) {
      return std::find(care.cautions.begin(), care.cautions.end(), line) != care.cautions.end();
    });
  };
  for (const auto& line : out.care.front().cautions)
    if (by_all(line)) out.shared.push_back(line);
  for (auto& care : out.care)
    std::erase_if(care.cautions, [&](const std::string& line) {
      return std::find(out.shared.begin(), out.shared.end(), line) != out.shared.end();
    });
}

std::string names_of(const std::vector<UsedRules>& rules) {
  std::vector<std::string_view> names;
  for (const auto& set : rules) names.push_back(set.name);
  return names.empty() ? std::string(no_rules) : fmt::format("{}: check the current text", fmt::join(names, ", "));
}

}  // namespace

ShortSheet in_short(const Worksheet& sheet) {
  ShortSheet out;
  for (std::size_t i = 0; i < sheet.steps.size(); ++i)
    for (const auto& check : sheet.steps[i].outcome.checks)
      if (!check.holds)
        out.fails.push_back(at_step(sheet, i, check.name + comparison(check)) +
                            (check.remedy.empty() ? "" : ". " + check.remedy));
  for (const auto& pair : sheet.weigh_out.apart) out.apart.push_back(apart_words(pair));
  for (const auto& first : asking_first(sheet)) out.lines.push_back({first, true});
  Told told(sheet, out);
  for (const auto& line : sheet.weigh_out.lines) {
    told.up_to(line.step);
    const StepSheet& s = sheet.steps[line.step];
    const Addition& a = s.outcome.additions[line.addition];
    out.lines.push_back({at_step(sheet, line.step,
                                 fmt::format("{} of {} into {} ({})", shown_amount(a),
                                             named(a, *s.added[line.addition]), destination(s, a), dose_words(a)))});
  }
  told.up_to(sheet.steps.size());
  take_care(sheet, out);
  return out;
}

std::string write_short_text(const Worksheet& sheet, const TextStyle& style) {
  const ShortSheet brief = in_short(sheet);
  Page page(style);
  page.rule('=');
  page.wrapped(page.strong("CELLAR WORK:") + " " + sheet.title, 0);
  page.rule('=');
  if (!sheet.demo.empty()) page.wrapped("DEMO DATA: " + sheet.demo, 0);
  page.pair("recipe", fmt::format("{} (SHA-256 {}...)", sheet.recipe_name, sheet.recipe_sha256.substr(0, 12)), 10);
  if (!sheet.date.empty()) page.pair("date", sheet.date, 10);
  if (!sheet.by.empty()) page.pair("by", sheet.by, 10);
  page.pair("rules", names_of(sheet.rules), 10);
  const CheckCount count = count_checks(sheet);
  page.pair("checks", count.failing == 0 ? count.words() : page.alarm(count.words()), 10);
  page.heading("TO DO");
  for (const auto& words : brief.fails) page.bullet(page.alarm("FAILS: "), words, 7);
  for (const auto& words : brief.apart) page.bullet(page.alarm("KEEP APART: "), words, 12);
  for (const auto& line : brief.lines) page.bullet(line.to_tick ? "[ ] " : "- ", line.words);
  for (const auto& words : brief.figures) page.bullet("- ", words);
  if (brief.lines.empty() && brief.figures.empty()) page.bullet("- ", "nothing");
  for (const auto& [of, cautions] : brief.care) {
    page.heading("CAUTIONS: " + of);
    for (const auto& words : cautions) page.bullet("! ", words);
  }
  if (!brief.shared.empty()) page.heading("CAUTIONS: all of them");
  for (const auto& words : brief.shared) page.bullet("! ", words);
  page.blank();
  page.wrapped("computed by ______________________________   date ____________   signature ________________", 0);
  page.wrapped("verified by ______________________________   date ____________   signature ________________", 0);
  page.rule('-');
  page.wrapped(fmt::format("{} {}", short_words, sheet_foot), 0);
  return page.text();
}

std::string write_short_html(const Worksheet& sheet) {
  const ShortSheet brief = in_short(sheet);
  const PageName name{sheet.title, "cellar work, short form", sheet.recipe_sha256};
  Markup page;
  write_head(page, name);
  page.open("body", {{"class", "short"}});
  page.open("header");
  write_title(page, name);
  write_demo(page, sheet.demo);
  const CheckCount count = count_checks(sheet);
  page.open("p", {{"class", count.failing != 0 ? "verdict fails" : "verdict"}});
  page.text("Checks: ");
  page.element("strong", count.words());
  page.close();
  std::string about = recipe_words(sheet.recipe_name, name);
  for (const auto* more : {&sheet.date, &sheet.by})
    if (!more->empty()) about += ", " + *more;
  page.element("p", fmt::format("{}; rules: {}", about, names_of(sheet.rules)), {{"class", "what"}});
  page.close();
  page.open("main");
  page.open("section", {{"aria-labelledby", "to-do"}});
  page.element("h2", "To do", {{"id", "to-do"}});
  for (const auto& words : brief.fails) page.element("p", "Fails: " + words, {{"class", "fault"}});
  for (const auto& words : brief.apart) page.element("p", "Keep apart: " + words, {{"class", "fault"}});
  for (const auto& line : brief.lines) {
    if (!line.to_tick) {
      page.element("p", line.words);
      continue;
    }
    page.open("label", {{"class", "dose"}});
    page.leaf("input", {{"type", "checkbox"}});
    page.element("span", line.words);
    page.close();
  }
  for (const auto& words : brief.figures) page.element("p", words);
  if (brief.lines.empty() && brief.figures.empty()) page.element("p", "Nothing.");
  page.close();
  const auto cautions = [&](const std::string& of, const std::vector<std::string>& lines) {
    page.open("section", {{"aria-label", "Cautions: " + of}});
    page.element("h3", "Cautions: " + of);
    page.open("ul", {{"class", "cautions"}});
    for (const auto& words : lines) page.element("li", words);
    page.close();
    page.close();
  };
  for (const auto& [of, lines] : brief.care) cautions(of, lines);
  if (!brief.shared.empty()) cautions("all of them", brief.shared);
  page.element("p", short_words, {{"class", "what"}});
  page.close();
  write_end(page);
  page.close();
  page.close();
  return page.document();
}

}  // namespace vatwright
