#include "host/sheet/phrases.hpp"

#include "host/sheet/writers.hpp"
#include "units/parse.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace vatwright {
namespace {

// Where the zero of a scale is not nothing, or where its figures are shares already, a percentage of a figure would
// mislead: pH, temperatures, hydrometer scales, strengths, per cent.
bool is_amount(std::string_view text) {
  const Unit unit = parse_unit(text);
  if (unit.scale != Scale::linear) return false;
  if (unit.dimension.plain()) return text == "1";
  for (const auto scale : {Dimension::ph, Dimension::temperature, Dimension::strength, Dimension::mass_fraction})
    if (unit.dimension.power[scale] != 0) return false;
  return true;
}

// Figures that differ only in what rounding hides are shown with as many decimals as tell them apart.
void tell_apart(Figure& one, Figure& other) {
  constexpr int most_decimals = 12;
  Figure a = one, b = other;
  while (shown(a) == shown(b) && std::max(a.decimals, b.decimals) < most_decimals) ++a.decimals, ++b.decimals;
  if (shown(a) != shown(b)) one = a, other = b;
}

// Of a difference: "0.06 pH units", "1.2 °C", "3 percentage points".
std::string_view unit_of_step(std::string_view unit) {
  if (unit == "pH") return "pH units";
  return unit == "%" ? "percentage points" : unit;
}

}  // namespace

std::string recipe_words(const std::string& file, const std::string& sha256) {
  constexpr std::size_t shown_of_a_hash = 12;
  return sha256.empty() ? file : fmt::format("{} (SHA-256 {}...)", file, sha256.substr(0, shown_of_a_hash));
}

std::string CheckCount::words() const {
  const std::string asks =
      asking == 0 ? "" : fmt::format("; {} an authorisation", asking == 1 ? "1 needs" : fmt::format("{} need", asking));
  if (all == 0) return "there was nothing to check" + asks;
  return (failing == 0 ? fmt::format("{} of {} hold", all, all) : fmt::format("{} of {} FAIL", failing, all)) + asks;
}

std::string_view verdict_of(const Check& check) {
  if (asks_first(check)) return needs_authorisation;
  return check.holds ? "holds" : "FAILS";
}

std::vector<std::string> asking_first(const Worksheet& sheet) {
  std::vector<std::string> out;
  for (const auto& step : sheet.steps)
    for (const auto& check : step.outcome.checks)
      if (asks_first(check)) out.push_back(fmt::format("{} {}", needs_authorisation, check.name));
  return out;
}

CheckCount count_checks(const Worksheet& sheet) {
  CheckCount count;
  for (const auto& step : sheet.steps)
    for (const auto& check : step.outcome.checks) {
      ++(asks_first(check) ? count.asking : count.all);
      if (!check.holds) ++count.failing;
    }
  return count;
}

std::string comparison(const Check& check) {
  if (!check.value || !check.limit) return {};
  Figure value = *check.value, limit = *check.limit;
  if (!check.holds) tell_apart(value, limit);
  // What was aimed at is wanted; the rest says itself what it is.
  return fmt::format(": {} ({} {})", shown(value), check.relation == "equals" ? "wanted" : check.relation,
                     shown(limit));
}

std::string uncertainty_words(const UncertaintyStatement& u) {
  const std::string learned =
      u.learned == 0 ? std::string()
                     : std::string("by how far such forecasts of this cellar were off, as its book has it");
  if (u.readings == 0) {
    if (u.own == 0 && u.learned == 0) return {};
    return fmt::format("{}{}{}. ± is {}", u.own == 0 ? "" : "by how well repeats agree, or readings a line",
                       u.own > 0 && u.learned > 0 ? "; " : "", learned, what_plus_minus_is);
  }
  std::string how =
      u.draws == 0 ? "first order (JCGM 100)" : fmt::format("{} draws, seed {} (JCGM 101)", u.draws, u.seed);
  how += fmt::format("; {} reading{} ±{}, taken as independent of each other", u.readings,
                     u.readings == 1 ? " carries" : "s carry",
                     u.models == 0   ? ""
                     : u.models == 1 ? ", and so does a model"
                                     : ", and so do models");
  if (u.learned > 0) how += "; forecasts: " + learned;
  if (u.failed > 0) how += fmt::format("; {} draws gave no answer and are left out", u.failed);
  return fmt::format("{}. ± is {}", how, what_plus_minus_is);
}

std::string chief(const ResultValue& result, const Spread& spread) {
  if (spread.chief.empty() || !is_worth_showing(result, spread)) return {};
  // No-break spaces: a line must not end between the figure and what it is a share of.
  return fmt::format("; {}\u00a0±\u00a0from {}",
                     spread.chief_share > 0.995
                         ? "all\u00a0of\u00a0the"
                         : fmt::format("{:.0f}\u00a0%\u00a0of\u00a0the", 100 * spread.chief_share),
                     spread.chief);
}

std::string uncertain_amount(const StepSheet& s, std::size_t i) {
  if (i >= s.addition_spreads.size() || s.addition_spreads[i].standard <= 0) return {};
  return fmt::format("weigh what is written; readings and models leave the amount uncertain by ± {}",
                     shown_spread(s.outcome.additions[i], s.addition_spreads[i].standard));
}

Spread spread_of(const StepSheet& s, std::size_t i) {
  return i < s.result_spreads.size() ? s.result_spreads[i] : Spread{};
}

std::string difference(const SecondOpinion& o) {
  if (!o.matters) return {};
  if (!is_amount(o.here.unit)) {
    const Unit unit = parse_unit(o.here.unit);
    const double off = unit.number(o.there.number) - unit.number(o.here.number);
    return fmt::format(". It is {} {} {}: find out why before you work", print_number(std::abs(off), o.here.decimals),
                       unit_of_step(o.here.unit), off > 0 ? "higher" : "lower");
  }
  if (o.here.number == 0) return ". The two differ: find out why before you work";
  const double off = 100 * (o.there.number / o.here.number - 1);
  return fmt::format(". It is {:.0f} % {}: find out why before you work", std::abs(off), off > 0 ? "more" : "less");
}

std::string origin(const Origin& from) {
  if (from.by_step()) return words(from);
  return (from.is_fallback() ? "the " : "this ") + words(from);
}

std::string lot_title(const LotSheet& lot) {
  return lot.name + (lot.sample.empty() ? "" : ", sample " + lot.sample) +
         (lot.made.empty() ? "" : ", made by " + lot.made) +
         (lot.as_if ? fmt::format(", as if step {} were done", *lot.as_if + 1) : "");
}

std::string named_unit(std::string_view name, std::string_view unit) {
  std::string text(name);
  // A name that is the unit's, such as "pH", says it already.
  if (!unit.empty() && unit != "1" && unit != name) text.append(", ").append(unit);
  return text;
}

std::string shown_cell(const Cell& cell, const Column& column) {
  if (const std::string* words = std::get_if<std::string>(&cell)) return *words;
  if (const double* number = std::get_if<double>(&cell))
    return print_number(parse_unit(column.unit).number(*number), column.decimals);
  return "-";
}

}  // namespace vatwright
