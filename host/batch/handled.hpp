// All that the rows of a table handle, each once: it is said once for all of them.
#pragma once

#include "host/bench/worksheet.hpp"

#include <vector>

namespace vatwright {

struct Handled {
  std::vector<const Substance*> added, reagents;
  std::vector<ApartPair> apart;  // where one row has both

  void join(const Worksheet& row);
  void join(const Handled& others);
};

}  // namespace vatwright
