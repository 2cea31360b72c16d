// What yaml-cpp says of a text that is not YAML, in the words of whoever wrote it.
#pragma once

#include "host/yaml/tree.hpp"

#include <string_view>

namespace YAML {
class ParserException;
}

namespace vatwright {

// `line`: the text of the line that the error names; `first_line`: the number of the text's first.
TreeError in_plain_words(const YAML::ParserException& error, std::string_view line, int first_line);

}  // namespace vatwright
