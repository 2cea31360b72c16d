#include "plugins/control/duplicates.hpp"

#include "plugins/chemistry/statistics/repeats.hpp"
#include "plugins/chemistry/statistics/samples.hpp"

#include <fmt/format.h>

namespace vatwright::control::duplicates {
namespace {

using statistics::Verdict;

std::string verdict_of(Verdict verdict) {
  if (verdict == Verdict::agree) return "agree";
  return verdict == Verdict::another_due ? "READ A THIRD TIME" : "median: look for the reason";
}

std::string joined_names(const std::vector<std::string>& names) {
  std::string out;
  for (const auto& name : names) out += (out.empty() ? "" : ", ") + name;
  return out;
}

}  // namespace

Outcome run(const Inputs& in) {
  std::vector<std::pair<double, double>> read;
  std::vector<std::string> names, amiss;
  Table table{
      .name = "Samples", .columns = {{"sample"}, {"difference", "1", 3}, {"report", "1", 3}, {"verdict"}}, .rows = {}};
  for (const Row& row : in[pairs]) {
    std::vector<double> values{row[first].value(), row[second].value()};
    read.emplace_back(values[0], values[1]);
    if (const auto more = row.get(third)) values.push_back(more->value());
    const auto judged = statistics::judge(values, in[repeatability].value());
    names.emplace_back(row[sample]);
    if (judged.verdict != Verdict::agree) amiss.push_back(names.back());
    table.rows.push_back(
        {names.back(), judged.range, judged.reported() ? Cell(judged.value) : Cell(), verdict_of(judged.verdict)});
  }
  if (read.empty())
    throw InputError("no results", "write such as 'results: [{sample: T7, first: 31.0, second: 31.8}]'");
  Outcome out;
  const double scatter = statistics::scatter_of_pairs(read);
  out.result(s_r, Fraction(scatter));
  out.result(own_limit,
             Fraction(in[repeatability].value() * scatter / statistics::standard_of_limit(in[repeatability].value())));
  out.result(accepted, Fraction(static_cast<double>(read.size() - amiss.size())));
  out.checks.push_back(
      {.name = "all samples agree within the repeatability",
       .holds = amiss.empty(),
       .value = {},
       .limit = {},
       .relation = "",
       .source = std::string(precision.title) + " (" + std::string(precision.standing) + ")",
       .remedy = amiss.empty() ? "" : "read again, and report no mean of two that differ: " + joined_names(amiss)});
  if (in.figures_only()) return out;
  if (in.has(unit)) out.note("all figures in " + std::string(in[unit]));
  if (const auto wild = statistics::wild_pair(read))
    out.note(fmt::format("{} scatters more than the others do (Cochran, 5 %)", names[*wild]));
  constexpr std::size_t few = 8;
  if (read.size() < few)
    out.note("few pairs say little of the laboratory's own repeatability: gather more before you use it");
  out.tables.push_back(std::move(table));
  return out;
}

}  // namespace vatwright::control::duplicates
