// Words that people in the trade write, and ours for them: "gallons" is "gal", "rosé" is "pink".
// Only for messages: no such word is ever taken for ours without asking.
#pragma once

#include <span>
#include <string_view>

namespace vatwright {

struct Everyday {
  std::string_view word;  // in small letters and without spaces; of one letter, as it is written
  std::string_view ours;
};

// All of them; a word may mean several things, each where it is known.
std::span<const Everyday> everyday_words();

}  // namespace vatwright
