// What the rows of a rule set have in common: keys that are known, a source, a condition in words.
#pragma once

#include "host/yaml/document.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace vatwright {

// The rows under a topic. Throws BadInput for anything but a list: it would be no rule at all,
// without a sound.
const std::vector<Node>& rows_of(const Document& doc, std::string_view topic);

// The text under a key; empty when there is none.
std::string text_of(const Node& row, std::string_view key);

// Source, date of the text, and how far it was read. Throws BadInput for a row without a source.
std::string cited(const Document& doc, const Node& row);

// "stage wine, colour white or pink": the condition as it stands in the file.
std::string as_written(const Node* when);

}  // namespace vatwright
