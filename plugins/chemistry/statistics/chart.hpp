// Control charts: limits from a trial period, and the rules that say when a row of readings is no longer one of chance.
// Limits: Shewhart's charts as in ISO 7870-2; run rules after the Western Electric handbook and Nelson, J. Qual.
// Technol. 16 (1984) 237, and the laboratory's short set after Westgard et al., Clin. Chem. 27 (1981) 493 (all from
// memory).
#pragma once

#include <cstddef>
#include <span>
#include <string_view>
#include <vector>

namespace vatwright::statistics {

struct Control {
  double centre = 0, standard = 0;  // of one point

  double low(double times = 3) const { return centre - times * standard; }
  double high(double times = 3) const { return centre + times * standard; }
};

// Of single readings, by the mean moving range; two and more.
Control of_singles(std::span<const double> readings);
// Of means of groups of one size, by the pooled standard deviation within them, corrected for its bias.
Control of_groups(std::span<const std::vector<double>> groups);

enum class RuleSet : bool { laboratory, shewhart };

struct Broken {
  std::string_view rule;  // "two in a row beyond 2 s on one side"
  std::size_t point;      // the one at which it is broken
  bool stop;              // false: a warning
};
std::vector<Broken> broken_rules(std::span<const double> readings, const Control& control, RuleSet set);

}  // namespace vatwright::statistics
