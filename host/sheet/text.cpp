// The worksheet as a page of text: what to do first, then why it can be trusted.
#include "host/files/version.hpp"
#include "host/plugin/lot.hpp"
#include "host/sheet/page.hpp"
#include "host/sheet/phrases.hpp"
#include "host/sheet/to_do.hpp"
#include "host/sheet/writers.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

namespace vatwright {
namespace {

class TextSheet {
 public:
  TextSheet(const Worksheet& sheet, const TextStyle& style) : sheet_(sheet), page_(style) {}

  std::string write() {
    head();
    weigh_out();
    for (std::size_t i = 0; i < sheet_.steps.size(); ++i) step(i + 1, sheet_.steps[i]);
    lots();
    foot();
    return page_.text();
  }

 private:
  void head() {
    page_.rule('=');
    page_.wrapped(page_.strong("CELLAR WORKSHEET:") + " " + sheet_.title, 0);
    page_.rule('=');
    if (!sheet_.demo.empty()) page_.wrapped("DEMO DATA: " + sheet_.demo, 0);
    page_.pair("recipe", fmt::format("{} (SHA-256 {}...)", sheet_.recipe_name, sheet_.recipe_sha256.substr(0, 12)), 10);
    if (!sheet_.date.empty()) page_.pair("date", sheet_.date, 10);
    if (!sheet_.by.empty()) page_.pair("by", sheet_.by, 10);
    page_.pair("program", program_version, 10);
    if (sheet_.rules.empty()) page_.pair("rules", no_rules, 10);
    for (const auto& rules : sheet_.rules) page_.pair("rules", rules.note, 10);
    for (const auto& language : sheet_.languages) page_.pair("language", language.note, 10);
    uncertainty();
    verdict();
  }

  void uncertainty() {
    const auto words = uncertainty_words(sheet_.uncertainty);
    if (words.empty()) return;
    page_.pair("±", words, 10);
    for (const auto& note : sheet_.uncertainty.notes) page_.pair("", note, 10);
  }

  void verdict() {
    const CheckCount verdict = count_checks(sheet_);
    page_.pair("checks",
               verdict.failing == 0 ? verdict.words() : page_.alarm(verdict.words()) + ": " + std::string(before_work),
               10);
  }

  // One addition is read where it stands; several are fetched and weighed by one list.
  void weigh_out() {
    const WeighOut& list = sheet_.weigh_out;
    if (!wants_weigh_out(list)) return;
    page_.blank();
    page_.rule('-');
    page_.line(page_.strong("WEIGH-OUT LIST"));
    page_.wrapped(weigh_out_words, 0);
    page_.rule('-');
    for (const auto& pair : list.apart) page_.bullet(page_.alarm("KEEP APART: "), apart_words(pair), 12);
    std::vector<std::vector<std::string>> rows;
    for (const auto& line : list.lines) {
      const StepSheet& s = sheet_.steps[line.step];
      const Addition& a = s.outcome.additions[line.addition];
      rows.push_back({fmt::format("[ ] {}. {}", rows.size() + 1, named(a, *s.added[line.addition])), shown_amount(a),
                      fmt::format("{}", line.step + 1), listed_destination(s, line.addition)});
    }
    if (!rows.empty()) page_.columns({{"what", true}, {"how much"}, {"step"}, {"into", true}}, rows);
    for (const auto& words : idle_steps(sheet_)) page_.bullet("- ", words);
    for (const auto& total : list.totals)
      page_.bullet("! ", (total.additions > 1 ? total_words(total) + ". " : "") + total.substance->name() + ": " +
                             first_cautions(*total.substance));
  }

  void step(std::size_t number, const StepSheet& s) {
    page_.blank();
    page_.rule('-');
    page_.wrapped(page_.strong(fmt::format("STEP {}{}{}", number, s.lot.empty() ? "" : ", LOT " + s.lot,
                                           s.volume.empty() ? "" : ", " + s.volume)),
                  0);
    page_.wrapped(fmt::format("{} ({}, plugin {})", s.help, s.calculation, s.plugin), 0);
    page_.rule('-');
    for (const auto& check : s.outcome.checks)
      if (!check.holds) failing(check);
    to_do(s);
    for (const auto* reagent : s.reagents)
      if (const auto before = told_before({sheet_.steps.data(), number - 1}, *reagent)) {
        page_.blank();
        page_.wrapped(told_words(*reagent, *before), 0);
      } else {
        cautions(*reagent, "HANDLE WITH CARE: " + reagent->name());
      }
    inputs(s);
    results(s);
    for (const auto& table : s.outcome.tables) this->table(table);
    checks(s);
    papers(s);
    opinions(s);
    if (!s.outcome.notes.empty()) page_.heading("NOTES");
    for (const auto& note : s.outcome.notes) page_.bullet("- ", note);
  }

  void failing(const Check& check) {
    page_.bullet(page_.alarm("FAILS: "),
                 check.name + comparison(check) + (check.remedy.empty() ? "" : ". " + check.remedy), 7);
  }

  void to_do(const StepSheet& s) {
    const auto before = tasks(s);
    const auto nothing = idle_words(s);
    if (!before.empty() || !nothing.empty()) page_.heading("TO DO");
    for (const auto& task : before) page_.bullet("[ ] ", task);
    if (!nothing.empty()) page_.bullet("- ", nothing);
    for (std::size_t i = 0; i < s.outcome.additions.size(); ++i) {
      if (i > 0 || before.empty()) page_.heading("TO DO");
      addition(s, i);
    }
  }

  void addition(const StepSheet& s, std::size_t i) {
    const Addition& a = s.outcome.additions[i];
    const Substance& substance = *s.added[i];
    page_.bullet(
        "[ ] ", page_.strong(fmt::format("{} of {} into {}", shown_amount(a), named(a, substance), destination(s, a))) +
                    fmt::format(" ({})", dose_words(a)));
    if (const auto words = uncertain_amount(s, i); !words.empty()) page_.wrapped("      " + words, 6);
    cautions(substance, "CAUTIONS");
    page_.heading("HANDLING");
    for (std::size_t n = 0; n < substance.handling.size(); ++n)
      page_.bullet(fmt::format("{}. ", n + 1), substance.handling[n]);
  }

  void cautions(const Substance& substance, const std::string& title) {
    page_.heading(title);
    for (const auto& line : hazard_lines(substance)) page_.bullet(line.language.empty() ? "! " : "  ", line.words());
    for (const auto& caution : substance.cautions) page_.bullet("! ", caution);
  }

  void inputs(const StepSheet& s) {
    page_.heading("NUMBERS USED");
    for (const auto& used : s.inputs) {
      auto rows = input_table(used);
      page_.row(std::string(used.input->name), rows.empty() ? shown(*used.input, used.value) : std::string(in_table),
                "from " + origin(used.from));
    }
    for (const auto& used : s.inputs) {
      auto rows = input_table(used);
      if (rows.empty()) continue;
      std::vector<Page::Head> head;
      for (const auto& name : rows.front()) head.push_back({name, true});
      rows.erase(rows.begin());
      page_.heading(used.input->name);
      page_.columns(head, rows);
    }
  }

  void results(const StepSheet& s) {
    if (s.outcome.results.empty()) return;
    page_.heading("EXPECT");
    for (std::size_t i = 0; i < s.outcome.results.size(); ++i) {
      const ResultValue& r = s.outcome.results[i];
      const Spread spread = spread_of(s, i);
      page_.row(std::string(r.info->name), shown(r, spread), std::string(r.info->help) + chief(r, spread));
    }
    for (const auto& chance : s.chances) page_.row("how likely", shown_chance(chance.probability), chance.name);
  }

  void table(const Table& table) {
    std::vector<Page::Head> head;
    for (const auto& column : table.columns)
      head.push_back({named_unit(column.name, column.unit), column.unit.empty()});
    std::vector<std::vector<std::string>> rows;
    for (const auto& row : table.rows) {
      auto& cells = rows.emplace_back();
      for (std::size_t i = 0; i < row.size(); ++i) cells.push_back(shown_cell(row[i], table.columns[i]));
    }
    page_.heading(table.name);
    page_.columns(head, rows);
  }

  void checks(const StepSheet& s) {
    if (s.outcome.checks.empty()) return;
    page_.heading("CHECKS");
    for (const auto& check : s.outcome.checks) {
      const std::string words =
          check.name + comparison(check) + (check.source.empty() ? "" : " [" + check.source + "]");
      if (asks_first(check))
        page_.bullet("needs  ", "an authorisation " + words, 7);
      else
        page_.bullet(check.holds ? "holds  " : page_.alarm("FAILS  "), words, 7);
    }
  }

  void papers(const StepSheet& s) {
    const auto lines = papers_of(s);
    if (lines.empty()) return;
    page_.heading("LABEL, REGISTER AND RULE");
    for (const auto& line : lines) page_.bullet("- ", line);
  }

  void opinions(const StepSheet& s) {
    if (s.outcome.opinions.empty()) return;
    page_.heading("SECOND OPINION");
    for (const auto& o : s.outcome.opinions)
      page_.bullet("- ", fmt::format("{}: {}; this sheet: {}{} [{}]", o.name, shown(no_finer_than_measured(o.there)),
                                     shown(no_finer_than_measured(o.here)), difference(o), o.source));
  }

  void lots() {
    if (!shows_lots(sheet_)) return;
    page_.blank();
    page_.rule('-');
    page_.wrapped(page_.strong("LOTS BEFORE AND AFTER") + "   (predicted: measure again before the next work)", 0);
    page_.rule('-');
    for (const auto& lot : sheet_.lots) {
      if (lot.before.empty() && lot.after.empty()) continue;
      page_.heading("LOT " + lot_title(lot));
      for (const Input* key : lot::keys) {
        const auto [before, after] = lot.of(*key);
        if (before == nullptr && after == nullptr) continue;
        if (!lot.made.empty()) {
          page_.row(std::string(key->name), shown(*key, *after), "");
          continue;
        }
        const auto [was, is] = shown_change(*key, before, after);
        page_.row(std::string(key->name), was, was == is ? "" : "-> " + is);
      }
    }
  }

  void foot() {
    page_.blank();
    page_.rule('-');
    page_.wrapped("computed by ______________________________   date ____________   signature ________________", 0);
    page_.blank();
    page_.wrapped("verified by ______________________________   date ____________   signature ________________", 0);
    page_.rule('-');
    page_.wrapped(sheet_foot, 0);
  }

  const Worksheet& sheet_;
  Page page_;
};

}  // namespace

std::string write_text(const Worksheet& sheet, const TextStyle& style) { return TextSheet(sheet, style).write(); }

}  // namespace vatwright
