// Uncertainty to first order (JCGM 100): what one standard uncertainty of each reading and model does to each figure.
#pragma once

#include "host/bench/course.hpp"

#include <string>
#include <vector>

namespace vatwright {

class Sensitivities {
 public:
  // What one standard uncertainty of a reading does to a figure.
  struct Effect {
    std::size_t reading;
    double size;
  };

  Sensitivities(std::size_t slots, const std::vector<Reading>& readings) : readings_(&readings), effects_(slots) {}

  void add(std::size_t slot, Effect effect) { effects_[slot].push_back(effect); }

  // Of all of them together.
  double standard(std::size_t slot) const;
  // Which of them does most of it, and how much.
  void name_the_chief(std::size_t slot, Spread& spread) const;
  // What to measure so that the figure becomes surer, and how much; empty where nothing stands out.
  std::string advice(std::size_t slot, const ResultInfo& info) const;

 private:
  const std::vector<Reading>* readings_;
  // By figure, in the order of the readings; of those that cannot reach it there is none.
  std::vector<std::vector<Effect>> effects_;
};

// The steps that a reading can reach.
std::vector<std::size_t> reached_by(const Reading& reading, const Reach& reach);

// By central differences; by a one-sided one where a figure is not known on the other side. The variant, whose readings
// they are, must outlive them.
Sensitivities sensitivities(const FirstRun& first, Variant& variant);

}  // namespace vatwright
