// Figures of a blend as straight lines in the shares: exact for what adds up by volume, otherwise
// right at one predicted blend and near it.
#pragma once

#include "plugins/blend/design/problem.hpp"
#include "plugins/blend/design/tint.hpp"
#include "plugins/blend/predict.hpp"

#include <memory>
#include <vector>

namespace vatwright::blend::design {

// By lot; they make one.
using Mixture = std::vector<double>;

// The step of a figure that can be bound (keys.hpp), in the unit of its key and coherent.
double step_in_unit(const Input& key);
double step(const Input& key);

// A straight line through nothing: since the shares make one, its constant is in every slope.
using Line = std::vector<double>;
double at(const Line& line, const Mixture& shares);

// What is known of the lots, once.
class Lots {
 public:
  explicit Lots(const Problem& problem);

  std::size_t size() const { return problem_->lots.size(); }
  Volume volume() const { return problem_->volume; }
  const Row& row(std::size_t i) const { return *problem_->lots[i].row; }
  const chemistry::Composition& dissolved(std::size_t i) const { return *dissolved_[i]; }
  const Tints* tints() const { return tints_ ? &*tints_ : nullptr; }  // where colour is asked for
  // What goes in: the lots with a share, by volume of a blend of the wanted volume.
  Prediction blend(const Mixture& shares) const;

 private:
  const Problem* problem_;
  std::vector<std::optional<chemistry::Composition>> dissolved_;  // where pH is asked for
  std::optional<Tints> tints_;
};

class Estimate {
 public:
  // Around a blend of these shares.
  Estimate(const Lots& from, Mixture shares);

  const Prediction& prediction() const { return prediction_; }
  const Mixture& shares() const { return shares_; }
  bool knows(const Input& key) const;
  // Of the predicted blend, coherent. Throws InputError for what it does not know.
  double value(const Input& key) const;
  // How many steps the figure is above `level` (coherent), as a line in the shares. Of pH the line is
  // that of the charge balance held at `level`: zero where the pH is `level`, of the right sign
  // elsewhere.
  Line above(const Input& key, double level) const;
  // The same as a tangent: the right number of steps at this blend, wherever that is.
  Line distance(const Input& key, double level) const;

 private:
  Line ph_above(double level) const;
  Line colour_above(const Input& key, double level) const;
  double swelling() const;

  const Lots* lots_;
  Mixture shares_;
  Prediction prediction_;
};

}  // namespace vatwright::blend::design
