#include "host/book/learn.hpp"

#include "host/book/card_table.hpp"
#include "host/recipe/recipe.hpp"
#include "host/sheet/chart.hpp"
#include "host/sheet/fact_json.hpp"
#include "host/sheet/html_page.hpp"
#include "host/sheet/page.hpp"
#include "units/parse.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

namespace vatwright::book {
namespace {

std::string signed_number(double number) { return (number > 0 ? "+" : "") + print_significant(number, 3); }

// Measured against forecast; on the line they are the same.
Chart chart_of(const Lesson& lesson) {
  const Unit unit = parse_unit(lesson.unit);
  Chart chart{.name = lesson.calculation + ": " + lesson.fact + ", measured against forecast",
              .x = {"forecast", lesson.unit, 2},
              .y = {"measured", lesson.unit, 2},
              .traces = {}};
  Trace cases{.name = "cases", .dots = true, .points = {}}, same{.name = "as forecast", .points = {}};
  double low = lesson.cases.front().forecast, high = low;
  for (const auto& one : lesson.cases) {
    cases.points.emplace_back(unit.coherent(one.forecast), unit.coherent(one.measured));
    low = std::min({low, one.forecast, one.measured});
    high = std::max({high, one.forecast, one.measured});
  }
  same.points = {{unit.coherent(low), unit.coherent(low)}, {unit.coherent(high), unit.coherent(high)}};
  chart.traces = {same, cases};
  return chart;
}

struct Stock {
  std::string substance, strength, batch, unit;
  double amount;
  std::int64_t entries;
};

std::vector<Stock> stock(const Book& book) {
  std::vector<Stock> all;
  auto rows = book.data().prepare(
      "SELECT substance, strength, batch, unit, sum(amount), count(*) FROM weighed GROUP BY substance, strength, "
      "batch, unit "
      "ORDER BY substance, strength, batch, unit");
  while (rows.step())
    all.push_back({rows.text(0), rows.text(1), rows.text(2), rows.text(3), rows.real(4), rows.number(5)});
  return all;
}

}  // namespace

double Lesson::bias() const {
  double sum = 0;
  for (const auto& one : cases) sum += one.measured - one.forecast;
  return cases.empty() ? 0 : sum / static_cast<double>(cases.size());
}

double Lesson::scatter() const {
  if (cases.size() < 2) return 0;
  const double mean = bias();
  double sum = 0;
  for (const auto& one : cases) sum += std::pow(one.measured - one.forecast - mean, 2);
  return std::sqrt(sum / static_cast<double>(cases.size() - 1));
}

double Lesson::off() const {
  double sum = 0;
  for (const auto& one : cases) sum += std::pow(one.measured - one.forecast, 2);
  return cases.empty() ? 0 : std::sqrt(sum / static_cast<double>(cases.size()));
}

std::vector<Lesson> lessons(const Book& book, std::optional<std::int64_t> until) {
  std::vector<Lesson> all;
  auto rows = book.data().prepare(
      "SELECT calculation, fact, unit, lot, entry, forecast, measured FROM foretold WHERE moment <= ? "
      "ORDER BY calculation, fact, unit, moment, entry");
  rows.with(until.value_or(std::numeric_limits<std::int64_t>::max()));
  while (rows.step()) {
    if (all.empty() || all.back().calculation != rows.text(0) || all.back().fact != rows.text(1) ||
        all.back().unit != rows.text(2))
      all.push_back({rows.text(0), rows.text(1), rows.text(2), {}});
    all.back().cases.push_back({rows.text(3), rows.number(4), rows.real(5), rows.real(6)});
  }
  return all;
}

Json lessons_json(const std::vector<Lesson>& all) {
  Json out = Json::array();
  for (const auto& lesson : all) {
    Json cases = Json::array();
    for (const auto& one : lesson.cases)
      cases.push_back({{"lot", one.lot}, {"entry", one.entry}, {"forecast", one.forecast}, {"measured", one.measured}});
    out.push_back({{"calculation", lesson.calculation},
                   {"fact", lesson.fact},
                   {"unit", lesson.unit},
                   {"count", lesson.cases.size()},
                   {"bias", trimmed(lesson.bias())},
                   {"scatter", trimmed(lesson.scatter())},
                   {"cases", cases}});
  }
  return {{"forecasts", out}};
}

std::string lessons_text(const std::vector<Lesson>& all, const TextStyle& style) {
  if (all.empty()) return "no forecast was measured yet: report work as done, then measure the lot\n";
  Page page(style);
  std::vector<std::vector<std::string>> rows;
  for (const auto& lesson : all)
    rows.push_back({lesson.calculation, lesson.fact, std::to_string(lesson.cases.size()),
                    with_unit(signed_number(lesson.bias()), lesson.unit),
                    lesson.cases.size() < 2 ? "" : with_unit(print_significant(lesson.scatter(), 2), lesson.unit)});
  page.columns({{"forecast by", true}, {"of", true}, {"cases"}, {"bias"}, {"scatter"}}, rows);
  page.wrapped(
      "bias: measured less forecast, as a mean; scatter: its standard deviation. Of few cases neither says much.", 0);
  return page.text();
}

std::string lessons_html(const std::vector<Lesson>& all, const std::string& book) {
  Markup page;
  const PageName name{"Forecasts and measurements", "cellar book", {}, {}};
  write_head(page, name);
  page.open("body");
  page.open("main");
  write_title(page, name);
  page.element("p", "Book " + book + ". Bias: measured less forecast, as a mean; scatter: its standard deviation.");
  if (all.empty()) page.element("p", "No forecast was measured yet.");
  std::size_t number = 0;
  for (const auto& lesson : all) {
    page.open("section");
    page.element("h2", lesson.calculation + ": " + lesson.fact);
    page.element("p",
                 fmt::format("{} cases, bias {}, scatter {}", lesson.cases.size(),
                             with_unit(signed_number(lesson.bias()), lesson.unit),
                             lesson.cases.size() < 2 ? "not known of one case"
                                                     : with_unit(print_significant(lesson.scatter(), 2), lesson.unit)));
    write_chart(page, chart_of(lesson), fmt::format("lesson-{}", ++number));
    CardTable table(page, lesson.calculation + ": " + lesson.fact, {"lot", "entry", "forecast", "measured"});
    for (const auto& one : lesson.cases)
      table.row({one.lot, std::to_string(one.entry), with_unit(fmt::format("{:.5g}", one.forecast), lesson.unit),
                 with_unit(fmt::format("{:.5g}", one.measured), lesson.unit)});
    table.end();
    page.close();
  }
  page.close();
  page.close();
  page.close();
  return page.document();
}

Json stock_json(const Book& book) {
  Json all = Json::array();
  for (const auto& s : stock(book))
    all.push_back({{"substance", s.substance},
                   {"strength", s.strength},
                   {"batch", s.batch},
                   {"weighed", {{"value", trimmed(s.amount)}, {"unit", s.unit}}},
                   {"times", s.entries}});
  return {{"stock", all}};
}

std::string stock_text(const Book& book, const TextStyle& style) {
  std::vector<std::vector<std::string>> rows;
  for (const auto& s : stock(book))
    rows.push_back({s.substance + (s.strength.empty() ? "" : " (" + s.strength + ")"),
                    s.batch.empty() ? "not said" : s.batch, fmt::format("{:.8g} {}", s.amount, s.unit),
                    std::to_string(s.entries)});
  if (rows.empty()) return "nothing was weighed yet\n";
  Page page(style);
  page.columns({{"substance", true}, {"batch", true}, {"weighed"}, {"times"}}, rows);
  return page.text();
}

}  // namespace vatwright::book
