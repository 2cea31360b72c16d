#include "host/book/card_table.hpp"

#include <utility>

namespace vatwright::book {

CardTable::CardTable(Markup& page, std::string_view label, std::vector<std::string> heads)
    : page_(page), heads_(std::move(heads)) {
  page_.open("table", {{"class", "cards"}, {"aria-label", label}});
  page_.open("thead");
  page_.open("tr");
  for (const auto& head : heads_) page_.element("th", head, {{"scope", "col"}});
  page_.close();
  page_.close();
  page_.open("tbody");
}

void CardTable::row(const std::vector<std::string>& cells) {
  page_.open("tr");
  for (std::size_t i = 0; i < cells.size(); ++i) {
    if (i == 0)
      page_.element("th", cells[i], {{"scope", "row"}});
    else
      page_.element("td", cells[i], {{"data-head", heads_.at(i)}});
  }
  page_.close();
}

void CardTable::end() {
  if (!std::exchange(open_, false)) return;
  page_.close();
  page_.close();
}

}  // namespace vatwright::book
