// A table of words on a page of the book; on a telephone each of its rows is a card.
#pragma once

#include "host/sheet/html_markup.hpp"

#include <string>
#include <vector>

namespace vatwright::book {

class CardTable {
 public:
  // The first column heads its rows.
  CardTable(Markup& page, std::string_view label, std::vector<std::string> heads);
  CardTable(const CardTable&) = delete;
  CardTable& operator=(const CardTable&) = delete;
  ~CardTable() { end(); }

  void row(const std::vector<std::string>& cells);
  void end();  // once; nothing comes after it

 private:
  Markup& page_;
  std::vector<std::string> heads_;
  bool open_ = true;
};

}  // namespace vatwright::book
