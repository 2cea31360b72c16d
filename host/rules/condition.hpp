// When a row of a rule set applies: {stage: wine, colour: [white, pink], sugar: below 5 g/L}.
#pragma once

#include "host/plugin/inputs.hpp"
#include "host/yaml/document.hpp"

#include <functional>
#include <string>
#include <string_view>

namespace vatwright {

// What is known of the lot by its key; nullptr when nothing is.
using LotView = std::function<const Value*(std::string_view key)>;

// A key that the lot does not state leaves it open whether a row applies.
enum class Applies : unsigned char { no, open, yes };

// Throws BadInput for a condition that is not in order.
Applies applies(const Document& doc, const Node* when, const LotView& lot);

// "pink, sugar below 5 g/L", as the row words it for this lot.
std::string words(const Node* when, const LotView& lot);

// "colour white or pink, sugar below 5 g/L", whatever the lot.
std::string as_written(const Node* when);

}  // namespace vatwright
