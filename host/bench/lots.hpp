// The lots of a recipe as its steps leave them.
#pragma once

#include "host/bench/bind.hpp"
#include "host/bench/worksheet.hpp"
#include "host/facts/origin.hpp"
#include "host/plugin/outcome.hpp"

#include <map>
#include <string>
#include <vector>

namespace vatwright {

// A lot as the steps leave it, and which of them last wrote each value.
struct LotState {
  std::string name;
  Analysis analysis;
  std::map<std::string, Origin, std::less<>> from;
  bool there = true;   // false: a later step makes it
  std::string made{};  // by that step
  // Substances that were added to it: as the book has it, and by the steps so far.
  std::vector<std::string> went_in{};
  // Of a lot from the book: what nobody measured, and the words for the sheet.
  std::vector<const Input*> foretold{};
  std::string as_of{};
};

// The lots that the recipe gives, and after them a place for each that a step makes.
std::vector<LotState> lots_of(const Recipe& recipe, const std::vector<BoundStep>& steps);

// For the sheet, or again with other readings for the uncertainty of what is on it.
enum class Run : unsigned char { on_sheet, again };

// What a step did to the lots: it is steps[number] of the sheet. Throws PluginError
// where it cannot have; BadInput, placed at the step, where a value would leave its key's range. What it changed is
// told in `leaves`, where that is asked for.
void enter(const Outcome& outcome, const BoundStep& step, std::size_t number, const Recipe& recipe,
           std::vector<LotState>& lots, Run run = Run::on_sheet, std::vector<Left>* leaves = nullptr);

// A step may not work on a lot that was never made or is empty. Throws BadInput.
void refuse_absent(const Recipe& recipe, const BoundStep& step, const std::vector<LotState>& lots);

}  // namespace vatwright
