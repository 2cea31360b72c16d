#include "plugins/lab/repeats.hpp"

#include "plugins/chemistry/statistics/repeats.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

namespace vatwright::lab {
namespace {

using statistics::Verdict;

std::string remedy_of(Verdict verdict) {
  if (verdict == Verdict::another_due)
    return "read a third time: two readings that do not agree give no result; look at the burette and the sample";
  if (verdict == Verdict::median_taken)
    return "the median stands, with more doubt: look for the reason, and read the sample anew in two further aliquots";
  return {};
}

}  // namespace

std::vector<Volume> titrants_of(const Inputs& in, const Key<Volume>& single) {
  if (!in.has(titrations)) return {in[single]};
  std::vector<Volume> found;
  for (const Row& row : in[titrations]) found.push_back(row[row_titrant]);
  return found;
}

Reported report(const std::vector<double>& readings, double limit, const Dimension& dimension, ShownIn shown,
                const Inputs& in, Outcome& out) {
  const auto judged = statistics::judge(readings, limit);
  Reported reported{.value = {}, .standard = judged.standard};
  if (judged.reported()) reported.value = judged.value;
  if (!(limit > 0)) reported.name = "scatter of the readings";
  if (readings.size() < 2 || !(limit > 0)) return reported;
  const bool holds = judged.verdict == Verdict::agree;
  out.checks.push_back({.name = fmt::format("the {} readings agree", readings.size()),
                        .holds = holds,
                        .value = Figure{shown.unit, shown.decimals + 1, judged.range, dimension},
                        .limit = Figure{shown.unit, shown.decimals + 1, judged.allowed, dimension},
                        .relation = "at most",
                        .source = std::string(repeats_source.title) + ", " + std::string(repeats_source.place) + " (" +
                                  std::string(repeats_source.standing) + ")",
                        .remedy = remedy_of(judged.verdict)});
  if (in.figures_only()) return reported;
  if (!reported.value)
    out.task("titrate or read this sample a third time; no result is given of two that do not agree");
  Table table{.name = "Readings", .columns = {{"reading"}, {"result", shown.unit, shown.decimals}}, .rows = {}};
  for (std::size_t i = 0; i < readings.size(); ++i) table.rows.push_back({std::to_string(i + 1), readings[i]});
  out.tables.push_back(std::move(table));
  return reported;
}

}  // namespace vatwright::lab
