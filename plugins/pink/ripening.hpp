// Ripening by plot: a straight course of each figure, and the days on which all that is wanted holds.
#pragma once

#include "plugins/chemistry/straight_line.hpp"
#include "plugins/pink/harvest.hpp"

#include <optional>
#include <string>
#include <vector>

namespace vatwright::pink::harvest {

// One figure of one plot: x in days since the first reading of all, y coherent.
struct Course {
  const Input* key;
  std::vector<std::pair<double, double>> readings;
  chemistry::kernel::StraightLine line;
};

struct Plot {
  std::string name;
  std::vector<Course> courses;
  double last = 0;  // day of its last reading

  const Course* course(const Input& key) const;
};

struct Vineyard {
  std::chrono::sys_days first;  // day 0
  std::vector<Plot> plots;
};

// A bound that opens or closes the window.
struct Edge {
  double day = 0;
  double half_width = 0;       // of the 95 % interval of the day
  const Input* key = nullptr;  // nullptr: no bound, the window reaches to the end of what is looked at
  std::string bound;           // "pH at most 3.28"
};

struct Window {
  Edge opens, closes;
  bool there() const { return opens.day <= closes.day; }
};

// A course for every figure that a plot has readings of. Throws InputError for a plot with readings on
// fewer than three days of a figure that is bound.
Vineyard read_vineyard(const Inputs& in);

// From the first reading to `ahead` days past the plot's last one.
Window window_of(const Plot& one, const std::vector<KeyBounds>& bounds, double ahead);

// Decimals that a figure is printed with.
int decimals_of(const Input& key);

}  // namespace vatwright::pink::harvest
