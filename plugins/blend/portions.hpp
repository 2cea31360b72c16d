// How much of each lot goes into a blend, as it was asked for.
#pragma once

#include "plugins/blend/predict.hpp"

namespace vatwright::blend {

struct Portions {
  std::vector<Portion> list;
  bool drawn = true;  // false: by shares of no known volume, a prediction alone
};

// Shares that make 100 %, of `total` or of nothing in particular; or volumes; or, where no lot says
// either, whole lots. Throws InputError for both at once, for shares that do not make 100 %, and for
// more wine than a lot has: the hint says how much there can be. `check_stock`: false while readings
// are drawn anew.
Portions portions_of(const std::vector<Row>& lots, std::optional<Volume> total, bool check_stock);

// "pump 50.00 hL of lot T1 and 32.00 hL of lot T2 into lot C, and mix".
std::string pump(std::span<const Portion> portions, std::string_view where);

}  // namespace vatwright::blend
