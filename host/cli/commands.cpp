#include "host/cli/commands.hpp"

#include "host/batch/csv.hpp"
#include "host/batch/from_table.hpp"
#include "host/bench/rule_sets.hpp"
#include "host/cli/compute.hpp"
#include "host/cli/convert.hpp"
#include "host/cli/keep_lots.hpp"
#include "host/cli/manual.hpp"
#include "host/cli/output.hpp"
#include "host/cli/page_book.hpp"
#include "host/cli/past_of_book.hpp"
#include "host/cli/tables.hpp"
#include "host/cli/ticker.hpp"
#include "host/cli/verify.hpp"
#include "host/files/printable.hpp"
#include "host/intake/papers.hpp"
#include "host/page/server.hpp"
#include "host/sheet/csv.hpp"
#include "host/sheet/html_rows.hpp"

#include <algorithm>
#include <iostream>
#include <optional>
#include <utility>
#include <vector>

namespace vatwright {
namespace {

int print(const std::string& text) {
  put(text, {});
  return fine;
}

}  // namespace

int Commands::run() {
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

int Commands::compute() {
  refuse_brief();
  Recipe read = recipe_of_arguments(options_.name, options_.arguments, options_.rules);
  speak(read);
  return write(computed(read));
}

int Commands::take_in() {
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

int Commands::verify() {
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

int Commands::check() {
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

int Commands::list() {
  print(list_table(house_));
  return report_refusals() ? plugin_trouble : fine;
}

int Commands::show() { return print(show_table(house_, options_.name, terminal_style())); }

int Commands::describe() {
  const std::string json = description_table(house_, options_.name);
  if (report_refusals()) return plugin_trouble;
  return print(json);
}

int Commands::convert() { return print(converted(house_, options_.quantity, options_.unit)); }

int Commands::units() { return print(units_table(terminal_style())); }

int Commands::substances() { return print(substances_table(house_, options_.name, terminal_style())); }

int Commands::rules() { return print(rules_table(house_, options_.name, terminal_style())); }

int Commands::page() {
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

int Commands::manual(const CLI::App& app) {
  refuse_onto(options_.out, house_.files());
  const std::string page = manual_page(app, house_);
  if (report_refusals()) return plugin_trouble;
  put(page, options_.out);
  return fine;
}

void Commands::speak(Recipe& recipe) const {
  for (const auto& code : options_.languages) {
    named_language(house_.rules_folder.parent_path() / "languages", code);
    recipe.languages.emplace_back(code, Mark{1, 0});
  }
}

Recipe Commands::recipe() { return recipe(Document::open(options_.file)); }

Recipe Commands::recipe(Document document) {
  const book::BookLots lots = book_lots_of(options_.book);
  Slips slips;
  Recipe read = read_recipe(std::move(document), slips, &lots);
  if (!slips.none()) house_.bench().check(read, slips);
  return read;
}

int Commands::run_on_lots() {
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

Carry Commands::carry() const {
  const auto& heads = options_.carry;
  if (std::find(heads.begin(), heads.end(), "all") != heads.end()) return {.all = true};
  return {.all = false, .heads = heads};
}

Worksheet Commands::computed(const Recipe& recipe) {
  refuse_out_onto(recipe);
  const Ticker ticker;
  return house_.bench().run(recipe, options_.draws);
}

void Commands::refuse_brief() const {
  if (!options_.brief) return;
  if (!options_.lots.empty())
    throw BadInput("a table of lots has no short form\n  leave '--short' out: its page has a line for each lot");
  if (options_.format != "text" && options_.format != "html")
    throw BadInput("'--short' is a page to read\n  write '--format text' or '--format html'");
}

void Commands::refuse_out_onto(const Recipe& recipe) const {
  if (options_.out.empty()) return;
  auto read = house_.files();
  if (!options_.book.file.empty()) read.push_back(options_.book.file);
  for (const auto& file : rule_files(recipe)) read.push_back(file);
  for (const auto* file : {&options_.file, &options_.lots})
    if (!file->empty()) read.emplace_back(*file);
  refuse_onto(options_.out, read);
}

int Commands::write(const Worksheet& sheet) {
  report_refusals();
  put(written(sheet), options_.out);
  return sheet.holds() ? fine : check_fails;
}

std::string Commands::written(const Worksheet& sheet) const {
  if (options_.brief)
    return options_.format == "html" ? write_short_html(sheet)
                                     : write_short_text(sheet, options_.out.empty() ? terminal_style() : TextStyle{});
  if (options_.format == "json") return write_json(sheet);
  if (options_.format == "csv") return write_csv(sheet);
  if (options_.format == "html") return write_html(sheet);
  return write_text(sheet, options_.out.empty() ? terminal_style() : TextStyle{});
}

bool Commands::report_refusals() const {
  for (const auto& why : house_.registry.refusals()) std::cerr << "vatwright: refused: " << printable(why) << '\n';
  return !house_.registry.refusals().empty();
}

}  // namespace vatwright
