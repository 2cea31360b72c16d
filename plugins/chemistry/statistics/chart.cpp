#include "plugins/chemistry/statistics/chart.hpp"

#include "plugins/chemistry/statistics/distributions.hpp"
#include "plugins/chemistry/statistics/samples.hpp"

#include <cmath>
#include <functional>

namespace vatwright::statistics {
namespace {

// Readings in standard deviations off the centre, the newest last.
using Row = std::span<const double>;

struct Rule {
  std::string_view name;
  std::size_t of;  // looks at so many readings
  bool stop;
  bool (*broken)(Row);
};

template <class Holds>
std::size_t count(Row row, Holds holds) {
  std::size_t n = 0;
  for (const double z : row) n += holds(z) ? 1U : 0U;
  return n;
}

// So many of the row beyond a line on one side, the newest among them.
template <int many, int line>
bool beyond(Row row) {
  const double side = row.back() > 0 ? 1 : -1;
  return side * row.back() > line && count(row, [&](double z) { return side * z > line; }) >= many;
}

bool steady(Row row) {
  bool up = true, down = true;
  for (std::size_t i = 1; i < row.size(); ++i) {
    up = up && row[i] > row[i - 1];
    down = down && row[i] < row[i - 1];
  }
  return up || down;
}

bool alternating(Row row) {
  for (std::size_t i = 2; i < row.size(); ++i)
    if (!((row[i] - row[i - 1]) * (row[i - 1] - row[i - 2]) < 0)) return false;
  return true;
}

bool all_near(Row row) {
  return count(row, [](double z) { return std::abs(z) < 1; }) == row.size();
}
bool none_near(Row row) {
  return count(row, [](double z) { return std::abs(z) > 1; }) == row.size();
}
bool far_apart(Row row) { return (row[0] > 2 && row[1] < -2) || (row[0] < -2 && row[1] > 2); }

constexpr Rule shewhart_rules[] = {{"one beyond 3 s", 1, true, beyond<1, 3>},
                                   {"two of three beyond 2 s on one side", 3, true, beyond<2, 2>},
                                   {"four of five beyond 1 s on one side", 5, true, beyond<4, 1>},
                                   {"eight in a row on one side", 8, true, beyond<8, 0>},
                                   {"six in a row rising or falling", 6, true, steady},
                                   {"fourteen in a row up and down", 14, false, alternating},
                                   {"fifteen in a row within 1 s", 15, false, all_near},
                                   {"eight in a row beyond 1 s on either side", 8, true, none_near}};
constexpr Rule laboratory_rules[] = {{"one beyond 3 s", 1, true, beyond<1, 3>},
                                     {"two in a row beyond 2 s on one side", 2, true, beyond<2, 2>},
                                     {"two in a row 4 s apart", 2, true, far_apart},
                                     {"four in a row beyond 1 s on one side", 4, true, beyond<4, 1>},
                                     {"ten in a row on one side", 10, true, beyond<10, 0>},
                                     {"one beyond 2 s", 1, false, beyond<1, 2>}};

}  // namespace

Control of_singles(std::span<const double> readings) {
  double moving = 0;
  for (std::size_t i = 1; i < readings.size(); ++i)
    moving += std::abs(readings[i] - readings[i - 1]) / static_cast<double>(readings.size() - 1);
  return {mean(readings), moving / mean_range(2)};
}

Control of_groups(std::span<const std::vector<double>> groups) {
  std::vector<double> means;
  for (const auto& group : groups) means.push_back(mean(group));
  const Groups within = analyse(groups);
  const double pooled = std::sqrt(within.variance_within()) / mean_standard(within.freedom_within + 1);
  return {mean(means), pooled / std::sqrt(static_cast<double>(groups.front().size()))};
}

std::vector<Broken> broken_rules(std::span<const double> readings, const Control& control, RuleSet set) {
  std::vector<double> z;
  for (const double reading : readings) z.push_back((reading - control.centre) / control.standard);
  const std::span<const Rule> rules =
      set == RuleSet::laboratory ? std::span<const Rule>(laboratory_rules) : std::span<const Rule>(shewhart_rules);
  std::vector<Broken> out;
  for (std::size_t at = 0; at < z.size(); ++at)
    for (const Rule& rule : rules)
      if (at + 1 >= rule.of && rule.broken(Row(z).subspan(at + 1 - rule.of, rule.of)))
        out.push_back({rule.name, at, rule.stop});
  return out;
}

}  // namespace vatwright::statistics
