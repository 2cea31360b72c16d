// A recipe while somebody fills it in on the page: lots and steps that may not be whole yet. It travels
// with every form as the text of a recipe, and nothing is kept anywhere else.
#pragma once

#include "host/yaml/nodes.hpp"

#include <cstddef>
#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace vatwright {

// A lot, or a step: what it is called and what it says.
struct DraftPart {
  std::string name;   // of the lot; of the step: the id of its calculation
  std::string lot{};  // of a step that is on one
  std::vector<Entry> says{};

  const Node* find(std::string_view key) const;
  void set(std::string_view key, Node value);
  void erase(std::string_view key);
};

// A draft as the text of a recipe, and which value stands in which line: its key, with the lot's name or the
// step's number.
struct DraftText {
  struct Place {
    std::size_t step;  // in steps; or `no_step`
    std::string lot, key;
  };
  static constexpr std::size_t no_step = static_cast<std::size_t>(-1);
  std::string text;
  std::map<int, Place> lines;
};

struct Draft {
  std::vector<Entry> head;  // all that a recipe says beside its lots and steps, such as its title
  std::vector<DraftPart> lots, steps;

  DraftPart* lot(std::string_view name);
  const DraftPart* lot(std::string_view name) const;
  std::vector<std::string> rules() const;
  void set_rules(const std::vector<std::string>& names);
  std::string word(std::string_view key) const;  // of the head; empty when it says none
  void set_word(std::string_view key, std::string_view text);
};

// Throws BadInput for what is no recipe by its outline; what its values say is not looked at. An empty text is an
// empty draft.
Draft read_draft(const std::string& text);

DraftText text_of(const Draft& draft);

// A value as YAML, on one line.
std::string in_one_line(const Node& node);

// The name that the recipe of a page has in messages and on the sheet.
inline constexpr char draft_file[] = "recipe.yaml";

}  // namespace vatwright
