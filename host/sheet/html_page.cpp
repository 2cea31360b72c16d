#include "host/sheet/html_page.hpp"

#include "host/files/version.hpp"
#include "host/sheet/html_style.hpp"
#include "host/sheet/phrases.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>

namespace vatwright {
namespace {

// The foot of a printed sheet has room for so much.
constexpr std::size_t most_of_title = 60;

std::string in_short(const std::string& title) {
  if (title.size() <= most_of_title) return title;
  std::size_t end = most_of_title;
  while (end > 0 && (static_cast<unsigned char>(title[end]) & 0xC0U) == 0x80U) --end;  // no half of a letter
  return title.substr(0, end) + "...";
}

// Loose sheets find their way back: each carries the recipe's hash and title.
std::string print_foot(const PageName& name) {
  const std::string hash = name.short_hash();
  const bool known =
      !hash.empty() && std::all_of(hash.begin(), hash.end(), [](unsigned char c) { return std::isxdigit(c) != 0; });
  return fmt::format("@page{{@bottom-left{{content:\"worksheet {}{}\"}}}}\n", known ? hash + ": " : "",
                     in_css(in_short(name.title)));
}

void signatures(Markup& page) {
  page.open("section", {{"class", "signatures"}, {"aria-labelledby", "signatures-title"}});
  page.element("h2", "Signatures", {{"id", "signatures-title"}});
  for (const char* who : {"Computed by", "Verified by"}) {
    page.open("p");
    for (const char* what : {who, "date", "signature"}) page.element("span", what);
    page.close();
  }
  page.close();
}

}  // namespace

void write_head(Markup& page, const PageName& name) {
  page.own("<!DOCTYPE html>\n");
  page.open("html", {{"lang", "en"}});
  page.open("head");
  page.leaf("meta", {{"charset", "utf-8"}});
  page.leaf("meta", {{"http-equiv", "Content-Security-Policy"}, {"content", page_policy}});
  page.leaf("meta", {{"name", "viewport"}, {"content", "width=device-width, initial-scale=1"}});
  page.leaf("meta", {{"name", "color-scheme"}, {"content", "light dark"}});
  page.leaf("meta", {{"name", "generator"}, {"content", program_version}});
  page.leaf("link", {{"rel", "icon"}, {"href", "data:,"}});  // none, and none is asked for
  page.element("title", fmt::format("{} - {}", name.title, name.kind));
  page.open("style");
  page.own(html_style);
  page.own(name.style);
  page.own(print_foot(name));
  page.close();
  page.close();
}

void write_title(Markup& page, const PageName& name) {
  page.open("h1");
  page.element("small", with_a_capital(std::string(name.kind)));
  page.text(name.title);
  page.close();
}

std::string with_a_capital(std::string words) {
  if (!words.empty()) words.front() = static_cast<char>(std::toupper(static_cast<unsigned char>(words.front())));
  return words;
}

void write_demo(Markup& page, const std::string& demo) {
  if (demo.empty()) return;
  page.open("p", {{"class", "demo"}});
  page.element("strong", "Demo data:");
  page.text(" " + demo);
  page.close();
}

void write_end(Markup& page) {
  page.open("div", {{"class", "end"}});
  signatures(page);
  page.open("footer");
  page.element("p", sheet_foot);
  page.close();
  page.close();
}

}  // namespace vatwright
