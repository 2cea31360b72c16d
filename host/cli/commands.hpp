// What each command of the program does; those of the book are in book_commands.hpp.
#pragma once

#include "host/batch/batch.hpp"
#include "host/bench/worksheet.hpp"
#include "host/cli/house.hpp"
#include "host/cli/options.hpp"
#include "host/recipe/recipe.hpp"

#include <CLI/CLI.hpp>

#include <string>

namespace vatwright {

// Each gives the exit status. Throws BadInput, InputError or PluginError, and then nothing was written.
class Commands {
 public:
  // `options` must outlive it.
  explicit Commands(const Options& options) : options_(options), house_(options.plugins) {}

  int run();
  int compute();
  int take_in();
  int verify();
  int check();
  int list();
  int show();
  int describe();
  int convert();
  int units();
  int substances();
  int rules();
  int page();
  int manual(const CLI::App& app);

 private:
  // The languages of the command line come after those of the recipe.
  void speak(Recipe& recipe) const;
  // Where it has slips, all of them are told, those of its steps too.
  Recipe recipe();
  Recipe recipe(Document document);
  // Before anything is computed.
  void refuse_brief() const;
  void refuse_out_onto(const Recipe& recipe) const;

  int run_on_lots();
  Carry carry() const;
  Worksheet computed(const Recipe& recipe);
  int write(const Worksheet& sheet);
  std::string written(const Worksheet& sheet) const;
  // One bad plugin does not stop the others, but it is never passed over in silence.
  bool report_refusals() const;

  const Options& options_;
  House house_;
};

}  // namespace vatwright
