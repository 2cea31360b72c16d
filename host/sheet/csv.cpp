#include "host/sheet/csv.hpp"

#include "host/files/hash.hpp"
#include "host/sheet/phrases.hpp"
#include "host/sheet/to_do.hpp"
#include "host/sheet/writers.hpp"
#include "units/parse.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

#include <cmath>

namespace vatwright {
namespace {

// Two digits more than a sheet shows: enough to compute on, and no claim to know better.
constexpr int more_digits = 2;

std::string number_of(double coherent, const ResultInfo& result) {
  return print_number(parse_unit(result.unit).number(coherent), result.decimals + more_digits);
}

// What is weighed or measured is round already.
std::string amount_of(double coherent, std::string_view unit) {
  return fmt::format("{:.10g}", parse_unit(unit).number(coherent));
}

std::string standard_of(double coherent, const Spread& spread, std::string_view of) {
  if (!(spread.standard > 0)) return {};
  constexpr int shown_digits = 2;
  return print_significant(parse_unit(of).spread(spread.standard, coherent), shown_digits + more_digits);
}

std::string joined(const std::vector<std::string>& texts, std::string_view between) {
  return fmt::format("{}", fmt::join(texts, between));
}

// The cells after the lot's name and at the end of its row: what is to be done, and what must be known
// for it. A dose is never shown without its cautions.
struct RowWork {
  std::vector<std::string> before, add, dose, cautions, handling, apart;
};

RowWork work_of(const RowSheet& row) {
  const Worksheet& sheet = row.sheet;
  RowWork out;
  for (std::size_t n = 0; n < sheet.steps.size(); ++n) {
    const StepSheet& step = sheet.steps[n];
    const std::string in_step = step_in_a_row(sheet, n);
    for (const auto& task : tasks(step)) out.before.push_back(in_step + task);
  }
  for (const auto& [n, i] : sheet.weigh_out.lines) {
    const StepSheet& step = sheet.steps[n];
    const Addition& a = step.outcome.additions[i];
    out.add.push_back(step_in_a_row(sheet, n) + shown_amount(a) + " of " + named(a, *step.added[i]) +
                      destination_in_a_row(row.lot, step, a));
    out.dose.push_back(step_in_a_row(sheet, n) + shown(a.dose));
  }
  for (auto& words : idle_in_a_row(sheet)) out.add.push_back(std::move(words));
  Handled handled;
  handled.join(sheet);
  for (const auto* list : {&handled.added, &handled.reagents})
    for (const auto* substance : *list)
      for (const auto& caution : all_cautions(*substance)) out.cautions.push_back(substance->name() + ": " + caution);
  for (const auto* substance : handled.added) {
    for (const auto& line : substance->papers) out.handling.push_back(substance->name() + ": " + line);
    for (const auto& line : substance->handling) out.handling.push_back(substance->name() + ": " + line);
  }
  for (const auto& pair : handled.apart) out.apart.push_back(apart_words(pair));
  return out;
}

std::string failing_of(const Worksheet& sheet) {
  std::vector<std::string> out;
  for (const auto& step : sheet.steps)
    for (const auto& check : step.outcome.checks)
      if (!check.holds) out.push_back(check.name + (check.remedy.empty() ? "" : ": " + check.remedy));
  std::string words = out.empty() ? "hold" : "FAIL: " + joined(out, "; ");
  for (const auto& first : asking_first(sheet)) words += "; " + first;
  return words;
}

}  // namespace

std::string write_csv(const Worksheet& sheet) {
  const std::vector<std::string> columns{"step", "calculation",          "lot",    "kind", "name", "value",
                                         "unit", "standard uncertainty", "remark", "into", "when", "handling"};
  std::string out = csv_line(columns);
  for (std::size_t n = 0; n < sheet.steps.size(); ++n) {
    const StepSheet& step = sheet.steps[n];
    const auto line = [&](std::vector<std::string> cells) {
      cells.insert(cells.begin(), {fmt::format("{}", n + 1), step.calculation, step.lot});
      cells.resize(columns.size());
      out += csv_line(cells);
    };
    for (std::size_t i = 0; i < step.outcome.results.size(); ++i) {
      const auto& r = step.outcome.results[i];
      const Spread spread = spread_of(step, i);
      line({"result", std::string(r.info->name), number_of(r.number, *r.info), std::string(r.info->unit),
            standard_of(r.number, spread, r.info->unit), std::string(r.info->help)});
    }
    for (const auto& task : tasks(step)) line({"work", task});
    if (const auto words = idle_words(step); !words.empty()) line({"work", words});
    for (std::size_t i = 0; i < step.outcome.additions.size(); ++i) {
      const Addition& a = step.outcome.additions[i];
      const Substance& substance = *step.added[i];
      const double amount = a.mass ? a.mass->value() : a.volume->value();
      const std::string_view unit = a.mass ? "g" : "mL";
      const Spread spread = i < step.addition_spreads.size() ? step.addition_spreads[i] : Spread{};
      line({"addition", named(a, substance), amount_of(amount, unit), std::string(unit),
            standard_of(amount, spread, unit), joined(all_cautions(substance), " | "), part_of_lot(step, a), a.when,
            joined(substance.handling, " | ")});
    }
    for (const auto* reagent : step.reagents)
      line({"reagent", reagent->name(), "", "", "", joined(all_cautions(*reagent), " | ")});
    for (const auto& check : step.outcome.checks)
      line({"check", check.name, std::string(verdict_of(check)), "", "", check.remedy});
    for (const auto& paper : papers_of(step)) line({std::string(for_the_papers), paper});
    for (const auto& note : step.outcome.notes) line({"note", note});
  }
  for (const auto& pair : sheet.weigh_out.apart) {
    std::vector<std::string> cells{"", "", "", "keep apart", apart_words(pair)};
    cells.resize(columns.size());
    out += csv_line(cells);
  }
  return out;
}

CsvRows::CsvRows(const Prepared& ready, bool uncertain, std::vector<std::string> carried)
    : carried_(std::move(carried)), uncertain_(uncertain) {
  recipe_ =
      fmt::format("{} (SHA-256 {}...)", ready.recipe.title, sha256_of(ready.recipe.document.text()).substr(0, 12));
  for (std::size_t i = 0; i < ready.steps.size(); ++i)
    steps_.push_back({ready.steps[i].calculation,
                      ready.steps.size() == 1 ? "" : fmt::format("{} {}: ", i + 1, ready.steps[i].spec->calculation)});
}

std::string CsvRows::head(const BatchVerdict&) const {
  std::vector<std::string> cells{"lot", "to add", "work", "dose", "read", "unusual readings"};
  for (const auto& step : steps_)
    for (const auto* result : step.calculation->results) {
      cells.push_back(fmt::format("{}{} [{}]", step.before, result->name, result->unit));
      if (uncertain_) cells.push_back(fmt::format("{}{} ± [{}]", step.before, result->name, result->unit));
    }
  for (const char* last : {"cautions", "handling", "keep apart", "checks", "error", "recipe"}) cells.emplace_back(last);
  cells.insert(cells.end(), carried_.begin(), carried_.end());
  return csv_line(cells);
}

std::string CsvRows::row(const RowSheet& row) const {
  const RowWork work = row.error.empty() ? work_of(row) : RowWork{};
  std::vector<std::string> cells{row.lot.empty() ? fmt::format("row {}", row.line) : row.lot,
                                 joined(work.add, "; "),
                                 joined(work.before, "; "),
                                 joined(work.dose, "; "),
                                 read_in_a_row(row.sheet),
                                 joined(unusual_in_a_row(row.sheet), "; ")};
  for (std::size_t s = 0; s < steps_.size(); ++s) {
    const StepSheet* step = row.error.empty() ? &row.sheet.steps[s] : nullptr;
    for (const auto* wanted : steps_[s].calculation->results) {
      std::string figure, standard;
      for (std::size_t i = 0; step != nullptr && i < step->outcome.results.size(); ++i) {
        const auto& result = step->outcome.results[i];
        if (result.info != wanted) continue;
        figure = number_of(result.number, *wanted);
        standard = standard_of(result.number, spread_of(*step, i), wanted->unit);
      }
      cells.push_back(std::move(figure));
      if (uncertain_) cells.push_back(std::move(standard));
    }
  }
  for (const auto* words : {&work.cautions, &work.handling, &work.apart}) cells.push_back(joined(*words, " | "));
  cells.push_back(row.error.empty() ? failing_of(row.sheet) : "");
  cells.push_back(row.error);
  cells.push_back(recipe_);
  cells.insert(cells.end(), row.carried.begin(), row.carried.end());
  return csv_line(cells);
}

std::string CsvRows::foot(const BatchVerdict&) const { return {}; }

}  // namespace vatwright
