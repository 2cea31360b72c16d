// A recipe: lots with their analysis, and the steps to compute. Reading it checks everything that
// can be known without a plugin.
#pragma once

#include "host/plugin/inputs.hpp"
#include "host/plugin/lot.hpp"
#include "host/yaml/document.hpp"
#include "units/basis.hpp"

#include <map>
#include <string>
#include <vector>

namespace vatwright {

struct LotSpec {
  std::string name;
  std::map<const Input*, Value> analysis;
};

struct StepInput {
  std::string name;
  Mark mark;
  const Node* node;  // inside the recipe's document
};

struct StepSpec {
  std::string calculation;  // "sulfite.addition"
  Mark mark;
  std::string lot;  // empty: the step names none
  Mark lot_mark;
  std::vector<StepInput> inputs;
};

// What the text of a recipe is: a file, or the calculation and arguments of `compute`, a line each.
inline constexpr std::string_view recipe_form = "recipe", arguments_form = "arguments";

struct Recipe {
  explicit Recipe(Document read) : document(std::move(read)) {}
  // Steps point into the document, so that a recipe may be moved but not copied.
  Recipe(const Recipe&) = delete;
  Recipe& operator=(const Recipe&) = delete;
  Recipe(Recipe&&) = default;
  Recipe& operator=(Recipe&&) = default;
  ~Recipe() = default;

  Document document;
  std::string_view form = recipe_form;
  std::string title;
  std::string demo;  // what the recipe says of itself when its data is invented; else empty
  const Basis* acid_basis = nullptr;
  bool typical_uncertainty = false;                 // for readings that carry none
  bool unusual_accepted = false;                    // somebody has looked at the unusual readings of a table
  std::vector<std::pair<std::string, Mark>> rules;  // by name or file, in order
  std::vector<LotSpec> lots;
  std::vector<StepSpec> steps;
};

// Throws BadInput.
Recipe read_recipe(Document document);

// The lot key of that name; nullptr when there is none.
const Input* find_lot_key(std::string_view name);

}  // namespace vatwright
