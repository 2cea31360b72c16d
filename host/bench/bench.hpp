// Runs a recipe: each step in order on its lot, every outcome vetted before it is believed.
#pragma once

#include "host/bench/bind.hpp"
#include "host/bench/uncertainty.hpp"
#include "host/bench/worksheet.hpp"
#include "host/rules/rules.hpp"

#include <filesystem>

namespace vatwright {

class Bench {
 public:
  Bench(Registry& registry, const Catalogue& catalogue, std::filesystem::path rules_folder)
      : registry_(registry), catalogue_(catalogue), rules_folder_(std::move(rules_folder)) {}

  // Reads and checks everything, computes nothing. Throws BadInput, with all slips at once and those that were found
  // before, or PluginError.
  void check(const Recipe& recipe, Slips found = {}) const;

  // Throws BadInput or PluginError; never returns part of a worksheet.
  Worksheet run(const Recipe& recipe, const Draws& draws = {}) const;

  // The same in two parts, for a recipe that is run on many lots. On any thread.
  Prepared prepare(const Recipe& recipe) const;
  void run_steps(const Prepared& ready, const Draws& draws, Worksheet& sheet) const;

  // What must not meet. Throws BadInput when the table is not in order.
  Apart apart() const;

 private:
  Prepared prepare(const Recipe& recipe, Slips& slips) const;
  Rules rules_of(const Recipe& recipe, Slips& slips) const;
  std::vector<Language> languages_of(const Recipe& recipe, Slips& slips) const;
  RuleSet rule_set(const Recipe& recipe, const std::string& name, Mark mark) const;
  std::filesystem::path apart_table() const;
  void name_files(const Prepared& ready, Worksheet& sheet) const;
  void add_rules(RuleSet set, Rules& rules) const;

  Registry& registry_;
  const Catalogue& catalogue_;
  std::filesystem::path rules_folder_;
};

}  // namespace vatwright
