// A recipe with one step on the form: which field belongs where, what is missing, what it comes to.
#pragma once

#include "host/page/answer.hpp"
#include "host/page/draft.hpp"
#include "host/page/form.hpp"

#include <map>
#include <optional>
#include <string>
#include <vector>

namespace vatwright {

// Names of fields begin so: of the lot that the step is on, of the step.
inline constexpr std::string_view of_lot = "lot", of_step = "step";

// What a whole recipe comes to: a sheet, or why there is none.
struct Computed {
  std::optional<Worksheet> sheet;
  Slip trouble;  // with the line of the recipe's text, where one is named
};
Computed computed(const std::string& recipe, const Premises& on);

// A fact that the form does not ask, because the lot has it.
struct KnownFact {
  const Input* input;
  std::string words;
};

// A rule set in a file of its own is not opened for a page: a recipe from somebody else could name any file. Throws
// BadInput.
void refuse_files(const Recipe& recipe);

class Work {
 public:
  // `base`: the recipe without the step.
  Work(const Premises& on, Draft base, Registry::Found of, std::string lot, Fields typed);

  // The last step of a recipe as the one on the form.
  static Work of_last_step(const Premises& on, Draft recipe);

  // Fills in what the lot says already, for a form that nobody has typed into yet.
  void begin();
  // Reads the fields, and computes when nothing is amiss or missing.
  void compute();

  const Calculation& calculation() const { return *of_.calculation; }
  const Manifest& plugin() const { return *of_.plugin; }
  std::string id() const;
  const Draft& base() const { return base_; }
  const Draft& whole() const { return whole_; }
  const Fields& typed() const { return typed_; }
  const std::string& lot() const { return lot_; }
  const std::vector<Field>& fields() const { return fields_; }
  const std::vector<KnownFact>& known() const { return known_; }
  const std::vector<std::string>& lots() const { return lots_; }
  const std::map<std::string, Slip>& slips() const { return slips_; }
  const std::vector<std::string>& troubles() const { return troubles_; }
  const std::vector<const Input*>& missing() const { return missing_; }
  const std::optional<Worksheet>& sheet() const { return sheet_; }
  // What answers the choice that was made, where that is another calculation; nullptr: this one does.
  const HandOver* handed() const { return handed_; }
  // What was typed, by the names that the fields have there.
  Fields typed_there() const;
  FormState state() const;
  // Whether the step could be asked of every lot at once: there are several, and none has been worked on.
  bool may_be_of_each() const;

 private:
  void place_fields();
  std::map<const Input*, Value> as_booked() const;
  void read_fields();
  void place_trouble(const Slip& trouble, const DraftText& text);
  bool in_one_of(const Input& input) const;

  const Premises& on_;
  Draft base_, whole_;
  Registry::Found of_;
  std::string lot_;
  Fields typed_;
  const Basis* basis_ = nullptr;
  std::vector<Field> fields_;
  std::vector<KnownFact> known_;
  std::vector<std::string> lots_;
  std::map<std::string, Slip> slips_;
  std::vector<std::string> troubles_;
  std::vector<const Input*> missing_;
  std::optional<Worksheet> sheet_;
  const HandOver* handed_ = nullptr;
};

// Throws BadInput, with the nearest name, when there is none; PluginError when its plugin is refused.
Registry::Found calculation_of_page(const Premises& on, const std::string& id);

}  // namespace vatwright
