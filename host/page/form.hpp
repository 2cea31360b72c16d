// The fields of one input on a form, with what was understood and what is amiss below it.
#pragma once

#include "host/page/entry.hpp"
#include "host/sheet/html_markup.hpp"

#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace vatwright {

// What all fields of a form share.
struct FormState {
  const Fields& typed;
  const std::map<std::string, Slip>& slips;  // by the name of the field
  const Basis* basis = nullptr;
  std::vector<std::string> lots;  // of the recipe as the step finds it
};

struct Field {
  const Input* input;
  std::string name;  // "lot|" and the fact, "step|" and the input
  std::string id;    // of the element, within the page
  bool required = false;
  std::string_view fallback{};
  bool one_of = false;  // of several, of which one is due
};

void write_field(Markup& page, const Field& field, const FormState& state);

}  // namespace vatwright
