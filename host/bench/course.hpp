// A recipe run on the readings of its sheet, and again and again on others: each time only the steps that those can
// reach, from where the first run had left the lots.
#pragma once

#include "host/bench/reach.hpp"
#include "host/bench/readings.hpp"
#include "host/bench/slots.hpp"

#include <span>
#include <vector>

namespace vatwright {

// The run on the readings of the sheet.
class FirstRun {
 public:
  // All must outlive it.
  FirstRun(const Prepared& ready, Slots& slots, const Reach& reach, const Variant& variant);

  // False: its readings cannot be together once the decisions are held.
  bool known() const { return known_; }
  const std::vector<double>& figures() const { return figures_; }

  const Slots& slots() const { return slots_; }
  const Reach& reach() const { return reach_; }
  // The lot as the step found it; nullptr where no step before had to do with it.
  const LotState* found_by(std::size_t step, std::size_t lot) const;

 private:
  struct Left {
    std::size_t by;  // step
    LotState lot;
  };
  const Slots& slots_;
  const Reach& reach_;
  std::vector<double> figures_;
  std::vector<std::vector<Left>> left_;  // by lot, in the order of the steps
  bool known_ = true;
};

class Rerun {
 public:
  Rerun(const FirstRun& first, const Variant& variant);

  // Runs `steps`, which must be all that the readings that were set can reach, and writes their figures, leaving those
  // of the others. False when the readings cannot be together.
  bool operator()(const std::vector<std::size_t>& steps, std::span<double> figures);

 private:
  void find(std::size_t step);

  const FirstRun& first_;
  const Variant& variant_;
  std::vector<LotState> lots_;
  std::vector<std::size_t> moved_in_;  // by lot: the run that last had to do with it
  std::size_t run_ = 0;
};

}  // namespace vatwright
