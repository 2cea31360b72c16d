// A recipe: lots with their analysis, and the steps to compute. Reading it checks everything that
// can be known without a plugin.
#pragma once

#include "host/plugin/inputs.hpp"
#include "host/plugin/lot.hpp"
#include "host/recipe/lot_source.hpp"
#include "host/yaml/document.hpp"
#include "units/basis.hpp"

#include <map>
#include <string>
#include <vector>

namespace vatwright {

struct LotSpec {
  std::string name;
  std::map<const Input*, Value> analysis;
  // Of a lot from the book: what is as the book has it, what of that nobody measured, and the words and the record for
  // the sheet.
  std::vector<const Input*> stored{}, foretold{};
  std::string as_of{}, record{};
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
  std::vector<std::pair<std::string, Mark>> rules;  // by name or file, in order
  std::vector<LotSpec> lots;
  std::vector<StepSpec> steps;
};

// `source`: for lots that the recipe takes from the book; nullptr: there is none. Throws BadInput.
Recipe read_recipe(Document document, const LotSource* source = nullptr);

// The lot key of that name; nullptr when there is none.
const Input* find_lot_key(std::string_view name);

}  // namespace vatwright
