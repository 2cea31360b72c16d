// All figures of a sheet in one row, so that a recipe can be run again and again and its figures
// compared: the results of each step, its additions, and the values of its checks.
#pragma once

#include "host/bench/prepared.hpp"

#include <span>
#include <vector>

namespace vatwright {

class Variant;

struct Slot {
  enum class Of : unsigned char { result, addition, check };
  std::size_t step;
  Of of;
  std::size_t index;  // in the outcome on the sheet
};

class Slots {
 public:
  // Both must outlive it.
  Slots(const Prepared& ready, const Worksheet& sheet);

  std::size_t size() const { return slots_.size(); }
  const Slot& operator[](std::size_t i) const { return slots_[i]; }
  double on_sheet(std::size_t i) const;

  // The first slot of the step; that of the next ends them.
  std::size_t first(std::size_t step) const { return first_[step]; }

  // Runs a step on the readings of `variant` and the lots as they are, the decisions of the sheet held, changes the
  // lots and writes its figures (NaN where it gives none). False when the readings cannot be together.
  bool fill(std::size_t step, const Variant& variant, std::vector<LotState>& lots, std::span<double> figures) const;
  // As `fill`, on the readings of the sheet. A step whose figures alone lack a check that the sheet has is run in full
  // from then on, so that each limit has its chance.
  bool fill_first(std::size_t step, const Variant& variant, std::vector<LotState>& lots, std::span<double> figures);

 private:
  bool gives_all_checks(std::size_t step, const BoundStep& bound, const std::vector<LotState>& lots) const;
  std::optional<Outcome> decided_anew(const BoundStep& step, const std::vector<LotState>& lots) const;

  const Prepared& ready_;
  const Worksheet& sheet_;
  std::vector<Slot> slots_;
  std::vector<std::size_t> first_;              // slot of each step; one more at the end
  std::vector<bool> refused_;                   // each step, on the sheet
  std::vector<bool> decides_;                   // each step
  std::vector<bool> in_full_;                   // each step
  std::vector<std::optional<Volume>> volumes_;  // of the lot of each step
};

}  // namespace vatwright
