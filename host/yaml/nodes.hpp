// Trees that nobody wrote as YAML: of the arguments of a command, of a form, of the rows of a table.
#pragma once

#include "host/yaml/document.hpp"

#include <string_view>
#include <vector>

namespace vatwright {

Node text_node_of(std::string_view text, Mark mark = {});
Node map_node_of(std::vector<Entry> entries, Mark mark = {});
Node list_node_of(std::vector<Node> items, Mark mark = {});

}  // namespace vatwright
