// A recipe: lots with their analysis, and the steps to compute. Reading it checks everything that
// can be known without a plugin.
#pragma once

#include "host/plugin/inputs.hpp"
#include "host/plugin/lot.hpp"
#include "host/recipe/lot_source.hpp"
#include "host/yaml/document.hpp"
#include "units/basis.hpp"

#include <map>
#include <optional>
#include <set>
#include <string>
#include <vector>

namespace vatwright {

// While the slips of a recipe are gathered, what was meant to be said counts as said: nothing is called missing that
// only could not be read.
struct LotSpec {
  std::string name;
  std::map<const Input*, Value> analysis;
  std::set<std::string, std::less<>> unread{};  // keys
  bool all_unread = false;
  // Of a lot from the book: what is as the book has it, what of that nobody measured, what was added to it, and the
  // words and the record for the sheet.
  std::vector<const Input*> stored{}, foretold{};
  std::vector<std::string> went_in{};  // substances
  std::string as_of{}, record{};
  std::string sample{};  // what stands on the sample's bottle; empty: nothing is said
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
  std::set<std::string, std::less<>> unread{};  // inputs, or "lot"
  std::string because{};                        // of one that was asked of another calculation: why it is this one
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
  std::string demo;      // what the recipe says of itself when its data is invented; else empty
  std::string date, by;  // the day of the work, and who computed it; empty: not said
  const Basis* acid_basis = nullptr;
  bool typical_uncertainty = false;                     // for readings that carry none
  std::optional<Lessons> learned{};                     // of the book, where the recipe asks for it
  bool unusual_accepted = false;                        // somebody has looked at the unusual readings of a table
  std::vector<std::pair<std::string, Mark>> rules;      // by name or file, in order
  std::vector<std::pair<std::string, Mark>> languages;  // of the law's words beside the English: "fr"
  std::vector<LotSpec> lots;
  std::vector<StepSpec> steps;
  bool lots_unread = false;
};

// `source`: for lots that the recipe takes from the book; nullptr: there is none. Throws BadInput, with all slips at
// once.
Recipe read_recipe(Document document, const LotSource* source = nullptr);

// The same, but keeps them: for what else can be found in the steps (Bench::check). Throws BadInput where nothing
// further can be read.
Recipe read_recipe(Document document, Slips& slips, const LotSource* source = nullptr);

// The lot key of that name; nullptr when there is none.
const Input* find_lot_key(std::string_view name);

}  // namespace vatwright
