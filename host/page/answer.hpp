// The whole page as one pure function: a request in, a response out. No socket, no file of the person's, no
// thread and no memory of what was asked before: all that a page knows comes with its request, or from the cellar book
// that it is given.
#pragma once

#include "host/bench/bench.hpp"
#include "host/describe/describe.hpp"
#include "host/page/page_book.hpp"
#include "host/page/request.hpp"

#include <functional>
#include <string>
#include <vector>

namespace vatwright {

// What became of a sheet that was computed anew.
struct Verified {
  std::vector<std::string> about, differences, not_compared;
  std::size_t compared = 0, checks = 0, failing = 0;
};

// What the page stands on. All plugins must have been opened (Registry::all), so that requests may be
// answered at the same time.
struct Premises {
  Registry& registry;
  const Catalogue& catalogue;
  Bench bench;
  std::vector<Holdings::RuleSetName> rule_sets;
  // Of the text of a sheet in JSON, opened under this name. Throws BadInput for what is none.
  std::function<Verified(const std::string& name, const std::string& text)> verify;
  const PageBook* book = nullptr;  // nullptr: there is none
};

// Never throws for what a person or a browser can send.
Response answer(const Request& request, const Premises& on);

}  // namespace vatwright
