// Molecular sulfur dioxide drawn against pH.
#pragma once

#include "plugins/sulfite/pk1.hpp"

#include <string_view>
#include <vector>

namespace vatwright::sulfite {

// The lot with so much free sulfur dioxide: as it is, or after the addition.
struct Stage {
  std::string_view name;
  MassConcentration free_so2;
};

// One curve and one dot for each stage, over the usual pH of a lot, with the usual targets as a
// band. Nothing while readings are drawn.
void draw_molecular(const Inputs& in, const NamedPk1& used, const std::vector<Stage>& stages, Outcome& out);

}  // namespace vatwright::sulfite
