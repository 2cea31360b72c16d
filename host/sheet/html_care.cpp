#include "host/sheet/html_care.hpp"

#include "host/sheet/to_do.hpp"

namespace vatwright {
namespace {

void cautions(Markup& page, const Substance& substance) {
  page.open("ul", {{"class", "cautions"}});
  for (const auto& line : hazard_lines(substance)) {
    page.open("li");
    if (!line.language.empty()) page.text(line.language + ": ");
    if (!line.code.empty()) page.element("b", line.code);
    if (!line.code.empty()) page.text(" ");
    if (line.language.empty())
      page.text(line.text);
    else
      page.element("span", line.text, {{"lang", line.text == no_wording ? "en" : std::string_view(line.language)}});
    page.close();
  }
  for (const auto& caution : substance.cautions) page.element("li", caution);
  page.close();
}

}  // namespace

void write_care(Markup& page, const Substance& substance) {
  page.open("div", {{"class", "care"}});
  page.open("div");
  page.element("h4", "Cautions");
  cautions(page, substance);
  page.close();
  page.open("div");
  page.element("h4", "Handling");
  page.open("ol");
  for (const auto& line : substance.handling) page.element("li", line);
  page.close();
  page.close();
  page.close();
}

void write_with_care(Markup& page, const Substance& substance) {
  page.open("div", {{"class", "with-care"}});
  page.element("h3", "Handle with care: " + substance.name());
  cautions(page, substance);
  page.close();
}

}  // namespace vatwright
