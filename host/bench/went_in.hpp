// What went into the lots, told to a calculation that asks for it.
#pragma once

#include "host/bench/prepared.hpp"

#include <optional>

namespace vatwright {

// Some calculations take a table of substances that the lot's book has (rows, `.kept = Kept::book`): whatever was added
// to the lot by the cellar book, by earlier steps or by its account 'treated with' is put before the rows that a person
// wrote, each once. Nothing where the calculation takes no such table, or nothing more went in.
struct ToldStep {
  BoundStep step;
  std::string names;  // what was put there
};
std::optional<ToldStep> told_what_went_in(const BoundStep& step, const std::vector<LotState>& lots,
                                          const Catalogue& catalogue);

// After a step: its additions into its lot, and what was in the lots that a new one is made of.
void note_what_went_in(const Outcome& outcome, const BoundStep& step, std::vector<LotState>& lots);

}  // namespace vatwright
