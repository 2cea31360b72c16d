// The worksheet as a page for a browser and a printer, in the order of the text sheet.
#include "host/sheet/html_page.hpp"
#include "host/sheet/phrases.hpp"
#include "host/sheet/write_blocks.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace vatwright {
namespace blocks {
namespace {

// "pink.yaml (SHA-256 ...), 2026-09-03, A. Person; rules: EU: check the current text".
std::string in_a_line(const std::vector<About>& about) {
  std::string out = about.front().words;
  for (std::size_t i = 1; i + 1 < about.size(); ++i) out += ", " + about[i].words;
  return out + fmt::format("; {}: {}", about.back().name, about.back().words);
}

void banner(Markup& page, const Sheet& sheet, const PageName& name) {
  page.open("header");
  write_title(page, name);
  write_demo(page, sheet.demo);
  page.open("p", {{"class", sheet.fails ? "verdict fails" : "verdict"}});
  page.text("Checks: ");
  page.element("strong", sheet.verdict);
  if (!sheet.verdict_remark.empty()) page.text(": " + sheet.verdict_remark);
  page.close();
  if (sheet.brief) {
    page.element("p", in_a_line(sheet.about), {{"class", "what"}});
  } else {
    page.open("dl", {{"class", "about"}});
    for (const auto& line : sheet.about) {
      page.element("dt", with_a_capital(line.name));
      page.element("dd", line.words);
    }
    page.close();
  }
  page.close();
}

void contents(Markup& page, const Sheet& sheet) {
  const auto listed = [](const Section& section) { return !section.in_contents.empty(); };
  if (std::count_if(sheet.sections.begin(), sheet.sections.end(), listed) < 2) return;
  page.open("nav", {{"aria-label", "Steps"}});
  page.open("ol");
  for (const auto& section : sheet.sections) {
    if (!listed(section)) continue;
    page.open("li");
    page.element("a", section.title.words(), {{"href", "#" + section.id}});
    page.text(": " + section.in_contents);
    if (!section.alarm.empty()) page.element("strong", "; " + section.alarm);
    page.close();
  }
  page.close();
  page.close();
}

void section(Markup& page, const Section& section) {
  const auto title = section.id + "-title";
  page.open("section", {{"id", section.id}, {section.is_step ? "class" : "", "step"}, {"aria-labelledby", title}});
  page.open("div", {{"class", "step-head"}});
  page.element("h2", section.title.words(), {{"id", title}});
  if (!section.about.empty()) page.element("p", section.about, {{"class", "what"}});
  if (!section.aside.empty()) page.element("p", with_a_capital(section.aside) + ".", {{"class", "what"}});
  page.close();
  write_blocks(page, section.blocks, section.id);
  page.close();
}

// One without an id is found by its title.
void short_section(Markup& page, const Section& section) {
  const auto title = section.title.words();
  const bool known = !section.id.empty();
  page.open("section", {{known ? "aria-labelledby" : "aria-label", known ? section.id : title}});
  page.element(known ? "h2" : "h3", title, {{known ? "id" : "", section.id}});
  write_blocks(page, section.blocks, section.id);
  page.close();
}

std::string on_a_page(const Sheet& sheet) {
  const PageName name{sheet.title, sheet.brief ? "cellar work, short form" : "cellar worksheet", sheet.recipe_sha256};
  Markup page;
  write_head(page, name);
  page.open("body", {{sheet.brief ? "class" : "", "short"}});
  if (!sheet.brief) page.element("a", "To the work", {{"class", "skip"}, {"href", "#work"}});
  banner(page, sheet, name);
  contents(page, sheet);
  page.open("main", {{sheet.brief ? "" : "id", "work"}});
  for (const auto& one : sheet.sections) sheet.brief ? short_section(page, one) : section(page, one);
  if (sheet.brief) page.element("p", short_words, {{"class", "what"}});
  page.close();
  write_end(page);
  page.close();
  page.close();
  return page.document();
}

}  // namespace
}  // namespace blocks

std::string write_html(const Worksheet& sheet) { return blocks::on_a_page(blocks::whole(sheet)); }

std::string write_short_html(const Worksheet& sheet) { return blocks::on_a_page(blocks::in_short(sheet)); }

}  // namespace vatwright
