// Builds the tree of a Document from yaml-cpp's events; the only user of yaml-cpp.
#pragma once

#include "host/yaml/document.hpp"

#include <stdexcept>
#include <string>

namespace vatwright {

class TreeError : public std::runtime_error {
 public:
  TreeError(Mark where, const std::string& what, std::string how)
      : std::runtime_error(what), mark(where), hint(std::move(how)) {}
  Mark mark;
  std::string hint;
};

// Throws TreeError beyond the limits, YAML::ParserException for what is not YAML.
Node read_tree(const std::string& text, const ReadLimits& limits, int first_line);

}  // namespace vatwright
