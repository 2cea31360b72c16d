#include "host/sheet/phrases.hpp"

#include "host/sheet/writers.hpp"
#include "units/parse.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

#include <cmath>

namespace vatwright {

std::string Verdict::words() const {
  if (all == 0) return "there was nothing to check";
  return failing == 0 ? fmt::format("{} of {} hold", all, all) : fmt::format("{} of {} FAIL", failing, all);
}

Verdict verdict_of(const Worksheet& sheet) {
  Verdict verdict;
  for (const auto& step : sheet.steps)
    for (const auto& check : step.outcome.checks) {
      ++verdict.all;
      if (!check.holds) ++verdict.failing;
    }
  return verdict;
}

std::string comparison(const Check& check) {
  if (!check.value || !check.limit) return {};
  return fmt::format(": {} ({} {})", shown(*check.value), check.relation, shown(*check.limit));
}

std::string difference(const SecondOpinion& o) {
  if (!o.matters) return {};
  if (o.here.number == 0) return ". The two differ: know why before work";
  const double off = 100 * (o.there.number / o.here.number - 1);
  return fmt::format(". It is {:.0f} % {}: know why before work", std::abs(off), off > 0 ? "more" : "less");
}

std::string origin(const std::string& from) {
  return from == "default" ? "the default" : from.starts_with("step ") ? from : "this " + from;
}

std::string named_unit(std::string_view name, std::string_view unit) {
  std::string text(name);
  if (!unit.empty() && unit != "1" && unit != "pH") text.append(", ").append(unit);
  return text;
}

std::string shown_cell(const Cell& cell, const Column& column) {
  if (const std::string* words = std::get_if<std::string>(&cell)) return *words;
  if (const double* number = std::get_if<double>(&cell))
    return print_number(parse_unit(column.unit).number(*number), column.decimals);
  return "-";
}

}  // namespace vatwright
