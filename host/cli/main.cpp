// Arguments and exit statuses: 0 all checks hold; 1 computed, but a check fails; 2 bad input,
// nothing computed; 3 a plugin is missing, refused or failed.
#include "host/batch/csv.hpp"
#include "host/batch/from_table.hpp"
#include "host/bench/rule_sets.hpp"
#include "host/cli/book_commands.hpp"
#include "host/cli/command_line.hpp"
#include "host/cli/command_slips.hpp"
#include "host/cli/complete.hpp"
#include "host/cli/compute.hpp"
#include "host/cli/convert.hpp"
#include "host/cli/house.hpp"
#include "host/cli/keep_lots.hpp"
#include "host/cli/manual.hpp"
#include "host/cli/output.hpp"
#include "host/cli/page_book.hpp"
#include "host/cli/past_of_book.hpp"
#include "host/cli/tables.hpp"
#include "host/cli/ticker.hpp"
#include "host/cli/verify.hpp"
#include "host/files/printable.hpp"
#include "host/files/version.hpp"
#include "host/intake/papers.hpp"
#include "host/loader/running.hpp"
#include "host/page/server.hpp"
#include "host/sheet/csv.hpp"
#include "host/sheet/html_rows.hpp"
#include "units/nearest.hpp"

#include <CLI/CLI.hpp>

#include <algorithm>
#include <iostream>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace {

using namespace vatwright;

enum Status : int { fine = 0, check_fails = 1, bad_input = 2, plugin_trouble = 3 };

constexpr unsigned short usual_port = 8330;  // fixed, so that the browser finds again what it kept

struct Options {
  std::vector<std::filesystem::path> plugins;
  std::string file, format = "text", out, name, lots, quantity, unit, by;
  std::vector<std::string> arguments, rules, carry, languages;
  Draws draws;
  unsigned short port = usual_port;
  bool keep = false, brief = false;
  BookOptions book;
};

class Commands {
 public:
  explicit Commands(const Options& options) : options_(options), house_(options.plugins) {}

  int run() {
    refuse_brief();
    // A table of lots, or one of readings that a step of the recipe asks for.
    auto filled = options_.lots.empty() ? std::nullopt : with_readings(Document::open(options_.file), options_.lots);
    if (!options_.lots.empty() && !filled) return run_on_lots();
    Recipe read = filled ? recipe(std::move(*filled)) : recipe();
    speak(read);
    const Worksheet sheet = computed(read);
    if (options_.keep) keep_sheet(options_.book, options_.file, write_json(sheet));
    return write(sheet);
  }

  int compute() {
    refuse_brief();
    Recipe read = recipe_of_arguments(options_.name, options_.arguments, options_.rules);
    speak(read);
    return write(computed(read));
  }

  int take_in() {
    refuse_onto(options_.out, [&] {
      auto read = house_.files();
      read.emplace_back(options_.file);
      read.emplace_back(options_.by);
      return read;
    }());
    const auto mapping = intake::read_mapping(Document::open(options_.by));
    const intake::RawTable table(options_.file, mapping);
    const auto sheet = intake::take_in(house_.bench(), mapping, table, past_of_book(options_.book));
    report_refusals();
    put(options_.format == "csv"    ? intake::write_lots(sheet)
        : options_.format == "json" ? intake::write_intake_json(sheet)
        : options_.format == "html" ? intake::write_intake_html(sheet)
                                    : intake::write_intake_text(sheet),
        options_.out);
    return sheet.holds() ? fine : check_fails;
  }

  int verify() {
    const Verdict verdict = verify_sheet(house_.bench(), options_.file);
    report_refusals();
    for (const auto& line : verdict.about) print(line + "\n");
    for (const auto& what : verdict.not_compared) print("not compared: " + what + "\n");
    constexpr std::size_t most_shown = 40;
    for (std::size_t i = 0; i < std::min(verdict.differences.size(), most_shown); ++i)
      print("DIFFERS  " + verdict.differences[i] + "\n");
    if (verdict.differences.size() > most_shown)
      print("... and " + std::to_string(verdict.differences.size() - most_shown) + " more\n");
    const std::string compared = std::to_string(verdict.compared) + " figures and words were computed anew";
    if (!verdict.differences.empty()) {
      print(options_.file + ": DOES NOT HOLD: " + compared + "; do not work by this sheet\n");
      return check_fails;
    }
    if (verdict.failing > 0) {
      print(options_.file + ": the same figures: " + compared + "; " + std::to_string(verdict.failing) + " of " +
            std::to_string(verdict.checks) + " checks of this sheet FAIL\n");
      return check_fails;
    }
    return print(options_.file + (verdict.not_compared.empty() ? ": holds: " : ": the same figures: ") + compared +
                 ", every one is the same\n");
  }

  int check() {
    const Recipe read = recipe();
    house_.bench().check(read);
    report_refusals();
    if (options_.format == "json") return print(json_of({}, fine));
    const auto counted = [](std::size_t n, const std::string& what) {
      return std::to_string(n) + " " + what + (n == 1 ? "" : "s");
    };
    return print(options_.file + ": in order; " + counted(read.lots.size(), "lot") + ", " +
                 counted(read.steps.size(), "step") + "; nothing was computed\n");
  }

  int list() {
    print(list_table(house_));
    return report_refusals() ? plugin_trouble : fine;
  }

  int show() { return print(show_table(house_, options_.name, terminal_style())); }
  int describe() {
    const std::string json = description_table(house_, options_.name);
    if (report_refusals()) return plugin_trouble;
    return print(json);
  }
  int convert() { return print(converted(house_, options_.quantity, options_.unit)); }
  int units() { return print(units_table(terminal_style())); }
  int substances() { return print(substances_table(house_, options_.name, terminal_style())); }
  int rules() { return print(rules_table(house_, options_.name, terminal_style())); }

  int page() {
    const auto book = book_for_page(options_.book, house_.bench());
    const Premises premises{
        house_.registry,
        house_.catalogue,
        house_.bench(),
        rule_sets_of(house_),
        [this](const std::string& name, const std::string& text) {
          Verdict v = verify_text(house_.bench(), name, text);
          return Verified{std::move(v.about), std::move(v.differences), std::move(v.not_compared), v.compared, v.checks,
                          v.failing};
        },
        book.get()};
    house_.registry.all();  // before requests are answered at the same time
    report_refusals();
    serve_page(premises, options_.port, [](const std::string& address) {
      std::cout << "open " << address << "\nIt serves this machine alone; Ctrl-C ends it." << std::endl;
    });
    return fine;
  }

  int manual(const CLI::App& app) {
    refuse_onto(options_.out, house_.files());
    const std::string page = manual_page(app, house_);
    if (report_refusals()) return plugin_trouble;
    put(page, options_.out);
    return fine;
  }

 private:
  // The languages of the command line come after those of the recipe.
  void speak(Recipe& recipe) const {
    for (const auto& code : options_.languages) {
      named_language(house_.rules_folder.parent_path() / "languages", code);
      recipe.languages.emplace_back(code, Mark{1, 0});
    }
  }

  // Where it has slips, all of them are told, those of its steps too.
  Recipe recipe() { return recipe(Document::open(options_.file)); }
  Recipe recipe(Document document) {
    const book::BookLots lots = book_lots_of(options_.book);
    Slips slips;
    Recipe read = read_recipe(std::move(document), slips, &lots);
    if (!slips.none()) house_.bench().check(read, slips);
    return read;
  }

  int run_on_lots() {
    if (options_.format != "csv" && options_.format != "html")
      throw BadInput("a table of lots is answered as csv or html\n  add '--format csv'");
    const EachFromBook each;
    Recipe recipe = read_recipe(Document::open(options_.file), &each);
    speak(recipe);
    refuse_out_onto(recipe);
    const Bench bench = house_.bench();
    const auto book = book_lots_of(options_.book);
    Batch batch(bench, recipe, {.file = options_.lots, .carry = carry(), .source = &book}, options_.draws);
    report_refusals();
    Output output(options_.out);
    const ProgressBar bar;
    const CsvRows csv(batch.ready(), batch.uncertain(), batch.carried_heads());
    const HtmlRows html(batch.ready(), batch.uncertain(), batch.carried_heads());
    const RowsToKeep rows(options_.format == "csv" ? static_cast<const RowWriter&>(csv) : html);
    bool begun = false;
    const auto write_on = [&](const std::string& text) {
      output.write(text);
      begun = begun || !text.empty();
    };
    const auto show = [&](double share, const BatchCount& so_far) { bar.show(share, so_far.lots); };
    const BatchCount count = [&] {
      try {
        return batch.run(rows, write_on, show);
      } catch (const BadInput& error) {
        // What went to standard output cannot be taken back: it says itself that it is not whole. A file is not left.
        if (begun && options_.out.empty())
          output.write(csv_line({std::string("NOT WHOLE: no further lot was computed"), error.what()}));
        throw;
      }
    }();
    const bool kept =
        !options_.keep || keep_rows(options_.book, bench, recipe, options_.lots, rows.lines(), options_.draws, carry());
    output.finish();
    bar.end();
    std::cerr << count.lots << " lots: " << count.failing << " with a check that fails, " << count.errors
              << " that could not be computed";
    if (count.unusual > 0) std::cerr << ", " << count.unusual << " with an unusual reading";
    std::cerr << "\n";
    return kept && count.failing + count.errors == 0 ? fine : check_fails;
  }

  Carry carry() const {
    const auto& heads = options_.carry;
    if (std::find(heads.begin(), heads.end(), "all") != heads.end()) return {.all = true};
    return {.all = false, .heads = heads};
  }

  Worksheet computed(const Recipe& recipe) {
    refuse_out_onto(recipe);
    const Ticker ticker;
    return house_.bench().run(recipe, options_.draws);
  }

  void refuse_brief() const {
    if (!options_.brief) return;
    if (!options_.lots.empty())
      throw BadInput("a table of lots has no short form\n  leave '--short' out: its page has a line for each lot");
    if (options_.format != "text" && options_.format != "html")
      throw BadInput("'--short' is a page to read\n  write '--format text' or '--format html'");
  }

  // Before anything is computed.
  void refuse_out_onto(const Recipe& recipe) const {
    auto read = house_.files();
    if (!options_.book.file.empty()) read.push_back(options_.book.file);
    for (const auto& file : rule_files(recipe)) read.push_back(file);
    for (const auto* file : {&options_.file, &options_.lots})
      if (!file->empty()) read.emplace_back(*file);
    refuse_onto(options_.out, read);
  }

  int write(const Worksheet& sheet) {
    report_refusals();
    put(written(sheet), options_.out);
    return sheet.holds() ? fine : check_fails;
  }

  std::string written(const Worksheet& sheet) const {
    if (options_.brief)
      return options_.format == "html" ? write_short_html(sheet)
                                       : write_short_text(sheet, options_.out.empty() ? terminal_style() : TextStyle{});
    if (options_.format == "json") return write_json(sheet);
    if (options_.format == "csv") return write_csv(sheet);
    if (options_.format == "html") return write_html(sheet);
    return write_text(sheet, options_.out.empty() ? terminal_style() : TextStyle{});
  }

  static int print(const std::string& text) {
    put(text, {});
    return fine;
  }

  // One bad plugin does not stop the others, but it is never passed over in silence.
  bool report_refusals() const {
    for (const auto& why : house_.registry.refusals()) std::cerr << "vatwright: refused: " << printable(why) << '\n';
    return !house_.registry.refusals().empty();
  }

  const Options& options_;
  House house_;
};

// "-3" would be read as a large number, without a word.
std::string whole_number(const std::string& text) {
  constexpr std::size_t most_digits = 18;  // that fit, whatever they are
  if (!text.empty() && text.size() <= most_digits && text.find_first_not_of("0123456789") == std::string::npos)
    return {};
  return "expected a whole number of 0 or more, read " + in_quotes(text) + "; write such as '--seed 7'";
}

struct Verb {
  CLI::App* app;
  int (Commands::*run)();
};

int answer(int argc, char** argv, Options& options) {
  CLI::App app("From lab numbers to cellar work: checks a recipe's quantities, computes its steps, writes a worksheet.",
               "vatwright");
  app.set_version_flag("--version", program_version);
  app.require_subcommand(1);
  app.footer("Exit status: 0 all checks hold, 1 a check fails, 2 bad input, 3 a plugin is missing, refused or failed.");
  app.add_option("--plugins", options.plugins, "a further folder of plugins (repeatable)")
      ->type_name("DIR")
      ->allow_extra_args(false);
  app.fallthrough();

  std::vector<Verb> verbs;
  const auto verb = [&](const char* name, const char* help, int (Commands::*run)()) {
    verbs.push_back({app.add_subcommand(name, help), run});
    return verbs.back().app;
  };
  const auto out_option = [&](CLI::App* sub) {
    sub->add_option("--out", options.out, "write to this file instead of standard output")->type_name("FILE");
  };
  const auto language_option = [&](CLI::App* sub) {
    sub->add_option("--language", options.languages,
                    "hazards, sulfites and allergens in this language too, such as fr (repeatable)")
        ->type_name("LANGUAGE")
        ->allow_extra_args(false);
  };
  const auto sheet_options = [&](CLI::App* sub) {
    sub->add_option("--format", options.format, "text, html, json or csv")
        ->check(CLI::IsMember({"text", "html", "json", "csv"}));
    sub->add_option("--draws", options.draws.count,
                    "draw the readings so often for the uncertainty, instead of first order")
        ->type_name("N")
        ->check(CLI::Range(std::size_t{2}, most_draws));
    sub->add_option("--seed", options.draws.seed, "of the draws; the same seed gives the same sheet")
        ->type_name("N")
        ->check(whole_number);
    sub->add_flag("--short", options.brief, "what to do, its cautions and the signatures alone, on one page");
    out_option(sub);
  };
  auto* run = verb("run", "compute a recipe and write its worksheet", &Commands::run);
  run->add_option("RECIPE", options.file, "a recipe in YAML")->required();
  run->add_option("--lots", options.lots,
                  "run it on each row of this table (CSV): 'lot' and lot keys, 'free SO2 [mg/L]'; or, where the recipe "
                  "says 'readings: from table', on all of them together")
      ->type_name("LOTS.csv");
  run->add_option("--carry", options.carry,
                  "a column of that table that no lot has, carried along as it is (repeatable); 'all': each of them")
      ->type_name("COLUMN")
      ->allow_extra_args(false);
  sheet_options(run);
  language_option(run);
  run->add_flag("--keep", options.keep, "keep the sheet in the cellar book, as planned work");
  run->add_option("--book", options.book.file, "the book, if not the one that 'vatwright book where' names")
      ->type_name("FILE");
  run->add_option("--by", options.book.by, "who computed it, for the book")->type_name("NAME");
  run->add_option("--at", options.book.at, "when, for the book, if not now: such as '2026-10-03 09:30'")
      ->type_name("TIME");
  auto* compute = verb("compute", "one calculation without a file", &Commands::compute);
  compute->add_option("CALCULATION", options.name, "such as sulfite.molecular")->required();
  compute->add_option("NAME=VALUE", options.arguments, "lot keys and inputs, as in a recipe")->take_all();
  compute->add_option("--rules", options.rules, "a rule set to check against (repeatable)")
      ->type_name("RULES")
      ->allow_extra_args(false);
  language_option(compute);
  sheet_options(compute);
  auto* check = verb("check", "read and check a recipe, compute nothing", &Commands::check);
  check->add_option("RECIPE", options.file, "a recipe in YAML")->required();
  check->add_option("--format", options.format, "text or json")->check(CLI::IsMember({"text", "json"}));
  check->add_option("--book", options.book.file, "the book, if not the one that 'vatwright book where' names")
      ->type_name("FILE");
  auto* intake =
      verb("intake", "raw readings of a laboratory to judged results and a table of lots", &Commands::take_in);
  intake->add_option("TABLE", options.file, "the laboratory's table (CSV, or as the mapping says)")->required();
  intake->add_option("--by", options.by, "the mapping: which column is what")->type_name("MAPPING")->required();
  intake->add_option("--format", options.format, "text, html, json, or csv: the table of lots")
      ->check(CLI::IsMember({"text", "html", "json", "csv"}));
  intake
      ->add_option("--book", options.book.file,
                   "the book whose earlier readings of the control samples count, if not the one that 'vatwright "
                   "book where' names")
      ->type_name("FILE");
  out_option(intake);
  auto* verify = verb("verify", "recompute a JSON worksheet and compare every figure", &Commands::verify);
  verify->add_option("SHEET", options.file, "a worksheet, written with --format json")->required();
  auto* page = verb("page", "the same in a browser, with forms: for who writes no recipes", &Commands::page);
  page->add_option("--port", options.port, "of the address on this machine; 0 takes any that is free")
      ->type_name("N")
      ->check(whole_number);
  page->add_option("--book", options.book.file, "the book, if not the one that 'vatwright book where' names")
      ->type_name("FILE");
  verb("list", "the calculations that there are", &Commands::list);
  auto* show = verb("show", "explain a calculation", &Commands::show);
  show->add_option("CALCULATION", options.name, "such as sulfite.addition")->required();
  auto* describe = verb("describe", "all that the calculations say of themselves, as JSON", &Commands::describe);
  describe->add_option("CALCULATION", options.name, "such as sulfite.addition");
  auto* convert = verb("convert", "one quantity in another unit, basis or scale of sugar", &Commands::convert);
  convert->add_option("QUANTITY", options.quantity, "such as '5.1 g/L as tartaric acid'")->required();
  convert->add_option("UNIT", options.unit, "such as 'g/L as sulfuric acid'; without it, in all units that fit");
  verb("units", "the table of units", &Commands::units);
  auto* substances = verb("substances", "the table of substances, or one of them", &Commands::substances);
  substances->add_option("SUBSTANCE", options.name, "such as 'tartaric acid'");
  auto* rules = verb("rules", "the rule sets, or the figures of one", &Commands::rules);
  rules->add_option("RULES", options.name, "such as EU");
  const BookCommands book(app, options.book);
  auto* manual = app.add_subcommand("manual", "the manual page, for man(1)");
  out_option(manual);

  // The words of a command line that a shell wants completed are no command line themselves.
  if (argc > 1 && std::string_view(argv[1]) == "complete") {
    put(completions(app, {argv + 2, argv + argc}), {});
    return fine;
  }
  try {
    app.parse(argc, argv);
  } catch (const CLI::ParseError& error) {
    refuse_slips(app, error);
    const int code = app.exit(error);
    return code == 0 ? fine : bad_input;
  }
  options.book.plugins = options.plugins;
  if (book.parsed()) return book.run();
  Commands commands(options);
  if (manual->parsed()) return commands.manual(app);
  for (const auto& v : verbs)
    if (v.app->parsed()) return (commands.*v.run)();
  return bad_input;
}

// In words on standard error; for another program, which asked for JSON, on standard output too.
int refuse(const Options& options, Status status, const std::vector<Problem>& problems, const std::string& words) {
  std::cerr << printable(words) << '\n';  // they quote what a person typed
  if (problems.size() > 1) std::cerr << problems.size() << " slips; nothing was computed\n";
  if (options.format == "json" || options.book.format == "json") std::cout << json_of(problems, status) << std::flush;
  return status;
}

}  // namespace

int main(int argc, char** argv) {
  name_what_breaks_off(plugin_trouble);
  Options options;
  try {
    return answer(argc, argv, options);
  } catch (const BadInput& error) {
    return refuse(options, bad_input, error.problems(), error.what());
  } catch (const InputError& error) {
    const Problem problem{{}, error.what(), error.hint()};
    return refuse(options, bad_input, {problem}, words_of(problem));
  } catch (const PluginError& error) {
    return refuse(options, plugin_trouble, {error.problem()}, std::string("vatwright: ") + error.what());
  } catch (const std::exception& error) {
    const std::string words = std::string("something went wrong that should not: ") + error.what();
    return refuse(options, plugin_trouble, {{{}, words, {}}}, "vatwright: " + words);
  }
}
