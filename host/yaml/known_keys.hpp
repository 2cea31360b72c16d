// A misspelt key in a table of data would leave out, without a sound, what it was to say.
#pragma once

#include "host/yaml/document.hpp"

#include <span>
#include <string_view>

namespace vatwright {

// Throws BadInput for a key of the map that `thing` ("a rule") does not have; the nearest is named.
void refuse_unknown_keys(const Document& doc, const Node& map, std::string_view thing,
                         std::span<const std::string_view> known);

}  // namespace vatwright
