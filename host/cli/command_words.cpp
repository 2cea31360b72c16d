#include "host/cli/command_words.hpp"

#include "host/cli/command_slips.hpp"
#include "host/cli/commands.hpp"
#include "host/cli/complete.hpp"
#include "host/cli/output.hpp"
#include "host/files/printable.hpp"
#include "host/files/version.hpp"
#include "units/nearest.hpp"

#include <CLI/CLI.hpp>

#include <string>
#include <string_view>
#include <vector>

namespace vatwright {
namespace {

// "-3" would be read as a large number, without a word.
std::string whole_number(const std::string& text) {
  constexpr std::size_t most_digits = 18;  // that fit, whatever they are
  if (!text.empty() && text.size() <= most_digits && text.find_first_not_of("0123456789") == std::string::npos)
    return {};
  return "expected a whole number of 0 or more, read " + in_quotes(text) + "; write such as '--seed 7'";
}

class Words {
 public:
  // All must outlive it.
  Words(CLI::App& app, Options& options, const TypedWords& typed) : app_(app), options_(options), typed_(typed) {
    add_run();
    add_compute();
    add_check();
    add_intake();
    add_verify();
    add_page();
    add_looks();
  }

  void out_option(CLI::App* sub) {
    sub->add_option("--out", options_.out, "write to this file instead of standard output")->type_name("FILE");
  }

  // What was asked for; nothing: none of these.
  int (Commands::*asked() const)() {
    for (const auto& one : verbs_)
      if (one.app->parsed()) return one.run;
    return nullptr;
  }

 private:
  struct Verb {
    CLI::App* app;
    int (Commands::*run)();
  };

  // `tell` adds its arguments and options.
  template <class Tell>
  void verb(const char* name, const char* help, int (Commands::*run)(), Tell tell) {
    verbs_.push_back({app_.add_subcommand(name, help), run});
    if (typed_.may_mean(name)) tell(verbs_.back().app);
  }
  void verb(const char* name, const char* help, int (Commands::*run)()) {
    verb(name, help, run, [](CLI::App* /*sub*/) {});
  }

  void book_option(CLI::App* sub, const std::string& what = "the book") {
    sub->add_option("--book", options_.book.file, what + ", if not the one that 'vatwright book where' names")
        ->type_name("FILE");
  }
  void language_option(CLI::App* sub) {
    sub->add_option("--language", options_.languages,
                    "hazards, sulfites and allergens in this language too, such as fr (repeatable)")
        ->type_name("LANGUAGE")
        ->allow_extra_args(false);
  }
  void sheet_options(CLI::App* sub) {
    sub->add_option("--format", options_.format, "text, html, json or csv")
        ->check(CLI::IsMember({"text", "html", "json", "csv"}));
    sub->add_option("--draws", options_.draws.count,
                    "draw the readings so often for the uncertainty, instead of first order")
        ->type_name("N")
        ->check(CLI::Range(std::size_t{2}, most_draws));
    sub->add_option("--seed", options_.draws.seed, "of the draws; the same seed gives the same sheet")
        ->type_name("N")
        ->check(whole_number);
    sub->add_flag("--short", options_.brief, "what to do, its cautions and the signatures alone, on one page");
    out_option(sub);
  }

  void add_run() {
    verb("run", "compute a recipe and write its worksheet", &Commands::run, [this](CLI::App* run) {
      run->add_option("RECIPE", options_.file, "a recipe in YAML")->required();
      run->add_option("--lots", options_.lots,
                      "run it on each row of this table (CSV): 'lot' and lot keys, 'free SO2 [mg/L]'; or, where the "
                      "recipe says 'readings: from table', on all of them together")
          ->type_name("LOTS.csv");
      run->add_option(
             "--carry", options_.carry,
             "a column of that table that no lot has, carried along as it is (repeatable); 'all': each of them")
          ->type_name("COLUMN")
          ->allow_extra_args(false);
      sheet_options(run);
      language_option(run);
      run->add_flag("--keep", options_.keep, "keep the sheet in the cellar book, as planned work");
      book_option(run);
      run->add_option("--by", options_.book.by, "who computed it, for the book")->type_name("NAME");
      run->add_option("--at", options_.book.at, "when, for the book, if not now: such as '2026-10-03 09:30'")
          ->type_name("TIME");
    });
  }

  void add_compute() {
    verb("compute", "one calculation without a file", &Commands::compute, [this](CLI::App* compute) {
      compute->add_option("CALCULATION", options_.name, "such as sulfite.molecular")->required();
      compute->add_option("NAME=VALUE", options_.arguments, "lot keys and inputs, as in a recipe")->take_all();
      compute->add_option("--rules", options_.rules, "a rule set to check against (repeatable)")
          ->type_name("RULES")
          ->allow_extra_args(false);
      language_option(compute);
      sheet_options(compute);
    });
  }

  void add_check() {
    verb("check", "read and check a recipe, compute nothing", &Commands::check, [this](CLI::App* check) {
      check->add_option("RECIPE", options_.file, "a recipe in YAML")->required();
      check->add_option("--format", options_.format, "text or json")->check(CLI::IsMember({"text", "json"}));
      book_option(check);
    });
  }

  void add_intake() {
    verb("intake", "raw readings of a laboratory to judged results and a table of lots", &Commands::take_in,
         [this](CLI::App* intake) {
           intake->add_option("TABLE", options_.file, "the laboratory's table (CSV, or as the mapping says)")
               ->required();
           intake->add_option("--by", options_.by, "the mapping: which column is what")
               ->type_name("MAPPING")
               ->required();
           intake->add_option("--format", options_.format, "text, html, json, or csv: the table of lots")
               ->check(CLI::IsMember({"text", "html", "json", "csv"}));
           book_option(intake, "the book whose earlier readings of the control samples count");
           out_option(intake);
         });
  }

  void add_verify() {
    verb("verify", "recompute a JSON worksheet and compare every figure", &Commands::verify, [this](CLI::App* verify) {
      verify->add_option("SHEET", options_.file, "a worksheet, written with --format json")->required();
    });
  }

  void add_page() {
    verb("page", "the same in a browser, with forms: for who writes no recipes", &Commands::page,
         [this](CLI::App* page) {
           page->add_option("--port", options_.port, "of the address on this machine; 0 takes any that is free")
               ->type_name("N")
               ->check(whole_number);
           book_option(page);
         });
  }

  // What there is, and what it says of itself.
  void add_looks() {
    verb("list", "the calculations that there are", &Commands::list);
    verb("show", "explain a calculation", &Commands::show, [this](CLI::App* show) {
      show->add_option("CALCULATION", options_.name, "such as sulfite.addition")->required();
    });
    verb(
        "describe", "all that the calculations say of themselves, as JSON", &Commands::describe,
        [this](CLI::App* describe) { describe->add_option("CALCULATION", options_.name, "such as sulfite.addition"); });
    verb("convert", "one quantity in another unit, basis or scale of sugar", &Commands::convert,
         [this](CLI::App* convert) {
           convert->add_option("QUANTITY", options_.quantity, "such as '5.1 g/L as tartaric acid'")->required();
           convert->add_option("UNIT", options_.unit,
                               "such as 'g/L as sulfuric acid'; without it, in all units that fit");
         });
    verb("units", "the table of units", &Commands::units);
    verb("substances", "the table of substances, or one of them", &Commands::substances, [this](CLI::App* substances) {
      substances->add_option("SUBSTANCE", options_.name, "such as 'tartaric acid'");
    });
    verb("rules", "the rule sets, or the figures of one", &Commands::rules,
         [this](CLI::App* rules) { rules->add_option("RULES", options_.name, "such as EU"); });
  }

  CLI::App& app_;
  Options& options_;
  const TypedWords& typed_;
  std::vector<Verb> verbs_;
};

}  // namespace

int answer(int count, char** words, Options& options) {
  CLI::App app("From lab numbers to cellar work: checks a recipe's quantities, computes its steps, writes a worksheet.",
               "vatwright");
  app.set_version_flag("--version", program_version);
  app.require_subcommand(1);
  app.footer("Exit status: 0 all checks hold, 1 a check fails, 2 bad input, 3 a plugin is missing, refused or failed.");
  app.add_option("--plugins", options.plugins, "a further folder of plugins (repeatable)")
      ->type_name("DIR")
      ->allow_extra_args(false);
  app.fallthrough();
  const TypedWords typed(count, words);
  Words known(app, options, typed);
  const BookCommands book(app, options.book, typed);
  auto* manual = app.add_subcommand("manual", "the manual page, for man(1)");
  known.out_option(manual);

  // The words of a command line that a shell wants completed are no command line themselves.
  if (typed.first() == "complete") {
    put(completions(app, typed.after_first()), {});
    return fine;
  }
  try {
    app.parse(count, words);
  } catch (const CLI::ParseError& error) {
    refuse_slips(app, error);
    const int code = app.exit(error);
    return code == 0 ? fine : bad_input;
  }
  options.book.plugins = options.plugins;
  if (book.parsed()) return book.run();
  Commands commands(options);
  if (manual->parsed()) return commands.manual(app);
  const auto asked = known.asked();
  return asked == nullptr ? bad_input : (commands.*asked)();
}

}  // namespace vatwright
