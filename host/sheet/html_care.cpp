#include "host/sheet/html_care.hpp"

namespace vatwright {
namespace {

void cautions(Markup& page, const Substance& substance) {
  page.open("ul", {{"class", "cautions"}});
  for (const auto& hazard : substance.hazards) {
    page.open("li");
    page.element("b", hazard.code);
    page.text(" " + hazard.text);
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
