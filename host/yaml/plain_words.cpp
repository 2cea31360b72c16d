#include "host/yaml/plain_words.hpp"

#include <yaml-cpp/exceptions.h>

namespace vatwright {
namespace {

struct Plain {
  std::string_view begins;  // what yaml-cpp says, or how it begins
  std::string_view what, hint;
};

constexpr std::string_view columns =
    "begin the keys of one map in one column; each key has ': ' after it, also in the line above";
const Plain plain_words[] = {
    {YAML::ErrorMsg::MAP_VALUE, "a ':' where none can stand", columns},
    {YAML::ErrorMsg::MAP_KEY, "a key where none can stand", columns},
    {YAML::ErrorMsg::END_OF_MAP_FLOW, "a '{' is not closed", "close it with '}', with commas between what it holds"},
    {YAML::ErrorMsg::END_OF_MAP, "the keys above do not go on here", columns},
    {YAML::ErrorMsg::END_OF_SEQ_FLOW, "a '[' is not closed", "close it with ']', with commas between what it holds"},
    {YAML::ErrorMsg::END_OF_SEQ, "the list above does not go on here", "begin each of its '- ' in one column"},
    {YAML::ErrorMsg::BLOCK_ENTRY, "a '- ' where none can stand", "begin each '- ' of a list in one column"},
    {YAML::ErrorMsg::FLOW_END, "a bracket is closed here that is not open",
     "close the one that is open, or take this one away"},
    {YAML::ErrorMsg::EOF_IN_SCALAR, "a quote that is not closed", "close it, or take it away"},
    {YAML::ErrorMsg::INVALID_ESCAPE, "a '\\' with a letter that means nothing",
     "write '\\\\', or single quotes around the text"},
    {YAML::ErrorMsg::UNKNOWN_TOKEN, "a text cannot begin with this sign", "put the text in quotes"},
    {YAML::ErrorMsg::ALIAS_NOT_FOUND, "a text cannot begin with '*'", "put the text in quotes"},
    {YAML::ErrorMsg::ANCHOR_NOT_FOUND, "a text cannot begin with '&'", "put the text in quotes"},
};

}  // namespace

TreeError in_plain_words(const YAML::ParserException& error, std::string_view line, int first_line) {
  const Mark mark{error.mark.line + first_line, error.mark.column};
  // Only some tabs are called so by yaml-cpp.
  if (line.substr(0, line.find_first_not_of(" \t")).find('\t') != std::string_view::npos)
    return {mark, "not YAML: a tab before a key", "write spaces in its place"};
  for (const auto& plain : plain_words)
    if (error.msg.starts_with(plain.begins))
      return {mark, "not YAML: " + std::string(plain.what), std::string(plain.hint)};
  return {mark, "not YAML: " + error.msg, "check the indentation, and that each key has ': ' after it"};
}

}  // namespace vatwright
