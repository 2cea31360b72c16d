// The catalogue of substances (substances.yaml): what each is, how much of it acts, how it harms
// and how it is handled. No dose is shown without the cautions that stand here.
#pragma once

#include "host/plugin/inputs.hpp"
#include "host/substances/language.hpp"
#include "host/substances/strong.hpp"
#include "host/yaml/sections.hpp"

#include <filesystem>
#include <map>
#include <mutex>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace vatwright {

struct Hazard {
  std::string code, text, standing;
  StrengthRange strength{};     // that it holds at; the text names it where the strength is not known
  std::vector<Wording> also{};  // in the languages that were asked for
};

// The signal word of a statement: that of a substance is the gravest of them.
struct SignalWord {
  std::string word;
  std::vector<std::string> codes;
};

// A line of first aid, and the hazards that it answers.
struct FirstAid {
  std::string part, line;  // "eyes", "rinse at once ..."
  std::vector<std::string> codes;
};

// What may be in the air at work, by rule set.
struct AtWork {
  std::string rules, limit, source;
};

struct Substance {
  SubstanceFacts facts;
  std::string product{};  // what stands on the sack, when the entry is named for what is done with it
  std::string form;       // solid, liquid, solution, gas
  std::string active;     // formula of what acts; empty: the whole substance, or by strength
  bool active_by_strength = false;
  std::string density;  // as written; empty when not given
  std::string uses;     // dosing, laboratory
  std::vector<Hazard> hazards;
  std::string signal{};                // "Danger", "Warning"; empty where no statement has one
  std::vector<Wording> signal_also{};  // in the languages that were asked for
  std::vector<AtWork> at_work{};
  std::vector<std::string> cautions, handling;  // the last cautions are first aid
  std::vector<std::string> papers{};            // for the label, the register and the rule
  std::string source;

  // As a sheet names it: "tartaric acid", "calcium carbonate (double-salt treatment)".
  std::string name() const { return product.empty() ? facts.id : product + " (" + facts.id + ")"; }
};

// How a substance is handled on a sheet: its strength ("60 g/L SO2"; empty, or words that hold none: all its hazards),
// the languages that are asked for, and the rule sets by name.
struct Handling {
  std::string_view strength;
  std::span<const Language> languages{};
  std::span<const std::string> rules{};
};

class Catalogue {
 public:
  // Throws BadInput when the table, or its section of first aid or of signal words, cannot be read.
  explicit Catalogue(const std::filesystem::path& table);

  // nullptr when there is none of that name; throws BadInput for an entry that is not in order.
  // Entries are read once and kept; any thread may ask.
  const Substance* find(std::string_view id) const;
  // The same as it is handled: the hazards of its strength, what the languages say of them, the limits at work of the
  // rule sets. First aid stays whatever the strength. What comes to the same is one.
  const Substance* find(std::string_view id, const Handling& handling) const;
  std::vector<std::string_view> names() const;
  // Of the whole table.
  Sum sum() const { return sections_.sum(); }

 private:
  Sections sections_;
  Substance whole(std::string_view id, const Document& doc) const;
  std::string signal_of(const std::vector<Hazard>& hazards) const;
  std::vector<FirstAid> first_aid_;
  std::vector<SignalWord> signals_;  // the gravest first
  mutable std::mutex reading_;
  mutable std::map<std::string, Substance, std::less<>> read_, handled_;
};

}  // namespace vatwright
