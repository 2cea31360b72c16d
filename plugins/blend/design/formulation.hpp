// A design as a mixed-integer program.
#pragma once

#include "plugins/blend/design/estimate.hpp"
#include "plugins/blend/design/program.hpp"

namespace vatwright::blend::design {

// Something that was asked for, and that a clash may name.
struct Demand {
  std::string words;           // "pH at most 3.30"
  const Input* key = nullptr;  // of a bound
  double bound = 0;            // coherent
  Sense sense = Sense::at_most;
};

inline constexpr std::size_t no_demand = static_cast<std::size_t>(-1);

// What a row of the model says to people.
struct RowMeaning {
  std::size_t demand = no_demand;  // that it belongs to
  std::string words{}, by{};       // "pH at most 3.30", "0.02"
  double looser = 0;               // the change of its bound that `by` is; 0: its price says nothing
};

struct Formulation {
  program::Model model;          // the shares come first, by lot
  std::vector<Demand> demands;   // those that were asked for as bounds stand last
  std::vector<RowMeaning> rows;  // of the model
  double scale = 1;              // of the objective: what one of it is

  // The same rows without what is dropped, and nothing to aim at.
  program::Model only(const std::vector<bool>& kept) const;
};

// `tightening`, in steps, by bound in the order of the problem's (each side by itself, see sides()):
// how far inside it the line is to stay.
Formulation formulate(const Problem& problem, const Estimate& estimate, const std::vector<double>& tightening);

// The bounds of a problem, one a side.
struct Side {
  const Input* key;
  double bound;
  Sense sense;
  bool only = false;  // of one figure: at most and at least at once
};
std::vector<Side> sides(const Problem& problem);

// A lot with less than this is not used; a variety that counts has as much.
inline constexpr double least_presence = 0.01;

}  // namespace vatwright::blend::design
