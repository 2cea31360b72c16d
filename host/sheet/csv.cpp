#include "host/sheet/csv.hpp"

#include "host/sheet/phrases.hpp"
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
  const Unit unit = parse_unit(of);
  constexpr int shown_digits = 2;
  return print_significant(spread.standard / std::abs(unit.slope(unit.number(coherent))), shown_digits + more_digits);
}

std::string joined(const std::vector<std::string>& texts, std::string_view between) {
  return fmt::format("{}", fmt::join(texts, between));
}

std::vector<std::string> cautions_of(const Substance& substance) {
  std::vector<std::string> out;
  for (const auto& hazard : substance.hazards) out.push_back(hazard.code + " " + hazard.text);
  out.insert(out.end(), substance.cautions.begin(), substance.cautions.end());
  return out;
}

// What is to be added, and its cautions: a dose is never shown without them.
struct ToAdd {
  std::vector<std::string> amounts, cautions;
};

void look(const StepSheet& step, ToAdd& all) {
  for (std::size_t i = 0; i < step.outcome.additions.size(); ++i) {
    const Addition& addition = step.outcome.additions[i];
    all.amounts.push_back(shown_amount(addition) + " of " + named(addition));
    for (const auto& caution : cautions_of(*step.added[i])) all.cautions.push_back(addition.substance + ": " + caution);
  }
}

std::string failing_of(const Worksheet& sheet) {
  std::vector<std::string> out;
  for (const auto& step : sheet.steps)
    for (const auto& check : step.outcome.checks)
      if (!check.holds) out.push_back(check.name + (check.remedy.empty() ? "" : ": " + check.remedy));
  return out.empty() ? "hold" : "FAIL: " + joined(out, "; ");
}

}  // namespace

std::string write_csv(const Worksheet& sheet) {
  std::string out =
      csv_line({"step", "calculation", "lot", "kind", "name", "value", "unit", "standard uncertainty", "remark"});
  for (std::size_t n = 0; n < sheet.steps.size(); ++n) {
    const StepSheet& step = sheet.steps[n];
    const auto line = [&](std::vector<std::string> cells) {
      cells.insert(cells.begin(), {fmt::format("{}", n + 1), step.calculation, step.lot});
      out += csv_line(cells);
    };
    for (std::size_t i = 0; i < step.outcome.results.size(); ++i) {
      const auto& r = step.outcome.results[i];
      const Spread spread = spread_of(step, i);
      line({"result", std::string(r.info->name), number_of(r.number, *r.info), std::string(r.info->unit),
            standard_of(r.number, spread, r.info->unit), std::string(r.info->help)});
    }
    for (std::size_t i = 0; i < step.outcome.additions.size(); ++i) {
      const Addition& a = step.outcome.additions[i];
      const double amount = a.mass ? a.mass->value() : a.volume->value();
      const std::string_view unit = a.mass ? "g" : "mL";
      const Spread spread = i < step.addition_spreads.size() ? step.addition_spreads[i] : Spread{};
      line({"addition", named(a), amount_of(amount, unit), std::string(unit), standard_of(amount, spread, unit),
            joined(cautions_of(*step.added[i]), " | ")});
    }
    for (const auto& check : step.outcome.checks)
      line({"check", check.name, check.holds ? "holds" : "FAILS", "", "", check.remedy});
    for (const auto& note : step.outcome.notes) line({"note", note, "", "", "", ""});
  }
  return out;
}

CsvRows::CsvRows(const Prepared& ready, bool uncertain) : uncertain_(uncertain) {
  for (std::size_t i = 0; i < ready.steps.size(); ++i)
    steps_.push_back({ready.steps[i].calculation,
                      ready.steps.size() == 1 ? "" : fmt::format("{} {}: ", i + 1, ready.steps[i].spec->calculation)});
}

std::string CsvRows::head() const {
  std::vector<std::string> cells{"lot"};
  for (const auto& step : steps_)
    for (const auto* result : step.calculation->results) {
      cells.push_back(fmt::format("{}{} [{}]", step.before, result->name, result->unit));
      if (uncertain_) cells.push_back(fmt::format("{}{} ± [{}]", step.before, result->name, result->unit));
    }
  for (const char* last : {"to add", "cautions", "checks", "error"}) cells.emplace_back(last);
  return csv_line(cells);
}

std::string CsvRows::row(const RowSheet& row) const {
  std::vector<std::string> cells{row.lot.empty() ? fmt::format("row {}", row.line) : row.lot};
  ToAdd to_add;
  for (std::size_t s = 0; s < steps_.size(); ++s) {
    const StepSheet* step = row.error.empty() ? &row.sheet.steps[s] : nullptr;
    if (step != nullptr) look(*step, to_add);
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
  cells.push_back(joined(to_add.amounts, "; "));
  cells.push_back(joined(to_add.cautions, " | "));
  cells.push_back(row.error.empty() ? failing_of(row.sheet) : "");
  cells.push_back(row.error);
  return csv_line(cells);
}

std::string CsvRows::foot(const BatchCount&) const { return {}; }

}  // namespace vatwright
