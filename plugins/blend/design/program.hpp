// Linear and mixed-integer programs in bare numbers, solved by GLPK: simplex, and branch and bound.
//
// All functions are pure and may run in parallel: GLPK keeps its state by thread.
#pragma once

#include <cstddef>
#include <limits>
#include <optional>
#include <string>
#include <vector>

namespace vatwright::blend::program {

inline constexpr double infinity = std::numeric_limits<double>::infinity();

// What is to be found: low <= x <= high, and zero or one where `yes_or_no`.
struct Column {
  std::string name{};
  double low = 0, high = infinity;
  double cost = 0;
  bool yes_or_no = false;
};

struct Term {
  std::size_t column;
  double coefficient;
};

// low <= sum of the terms <= high.
struct Row {
  std::string name{};
  double low = -infinity, high = infinity;
  std::vector<Term> terms{};
};

// The least sum of cost times x that keeps to all rows. Names are for reading; a written model
// numbers what is in it.
struct Model {
  std::vector<Column> columns{};
  std::vector<Row> rows{};

  std::size_t add(Column column);
  void add(Row row);
};

// How far the search among yes-or-no columns may go: in nodes, so that the answer does not hang on the speed of the
// machine. Past `enough` it ends with the best that it has; past `most` it is given up where it has none.
struct Effort {
  int enough, most;
};
inline constexpr Effort usual_effort{20000, 20000};

struct Solution {
  double objective;
  std::vector<double> values;  // by column
  // What the objective gains for one more of a row's bound, by row; 0 where the row does not bind.
  // With yes-or-no columns: of the program with those held as they came out.
  std::vector<double> prices;
  // No answer can be below this: the objective itself, unless the search among yes-or-no columns was ended.
  double proven;
  bool ended = false;
  int nodes = 0;  // of that search
};

// Nothing when no x keeps to all rows. Throws InputError when the search is given up, and std::logic_error for a
// model that is not in order: a figure that is not finite, bounds that cross, an unknown column.
std::optional<Solution> solve(const Model& model, const Effort& effort = usual_effort);

// The same with each yes-or-no held as it came out in `solution`.
Model chosen_as(const Solution& solution, Model model);

// In the LP format of CPLEX, which other programs read (`glpsol --lp`).
std::string written(const Model& model);

}  // namespace vatwright::blend::program
