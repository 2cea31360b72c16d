// What every page of ours has around its words.
#pragma once

#include "host/sheet/html_markup.hpp"

#include <string>
#include <string_view>

namespace vatwright {

// What says which page it is: on the screen, and at the foot of every sheet that is printed of it.
struct PageName {
  std::string title;          // of the recipe
  std::string_view kind;      // "cellar worksheet"
  std::string recipe_sha256;  // empty: not known
  std::string style{};        // beside that of every page

  std::string short_hash() const { return recipe_sha256.substr(0, 12); }
};

// The document's start, up to and without its body, with the html element left open.
void write_head(Markup& page, const PageName& name);

// A heading of rank 1, with the kind of page over it.
void write_title(Markup& page, const PageName& name);
void write_demo(Markup& page, const std::string& demo);

// "Nothing to add": as a sentence begins.
std::string with_a_capital(std::string words);

// Space for two signatures, and the footer.
void write_end(Markup& page);

}  // namespace vatwright
