// Joins the steps of a recipe to the calculations that they name, and checks every input against
// its description before anything is computed.
#pragma once

#include "host/bench/hand_over.hpp"
#include "host/bench/worksheet.hpp"
#include "host/loader/registry.hpp"
#include "host/recipe/recipe.hpp"

#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <vector>

namespace vatwright {

struct BoundStep {
  const StepSpec* spec;
  const Manifest* plugin;
  const Calculation* calculation;
  std::optional<std::size_t> lot{};                 // into the lots of the recipe, and after them those that steps make
  std::vector<std::size_t> makes{};                 // lots that it makes
  std::map<const Input*, Value> given;              // by the step
  std::map<const Input*, Value> defaults;           // of the calculation
  std::map<const ModelInfo*, double> deviations{};  // of its models, coherent; those that are not there are none
  std::shared_ptr<const HandedStep> handed{};       // what `spec` is in, where another calculation was asked
};

// What the step says of the input, or its default; nullptr when neither is there.
const Value* said(const BoundStep& step, const Input& input);

// Throws BadInput, naming all at once, when an input that the calculation needs is not there; `lot`
// is the name of the step's lot, empty when it is on none.
void refuse_missing(const Recipe& recipe, const BoundStep& step, const std::string& lot,
                    const std::function<bool(const Input&)>& there);

// Throws BadInput when none, or several, are there of which one is due; what the step says goes
// before what the lot has.
void refuse_unless_one(const Recipe& recipe, const BoundStep& step, const std::function<bool(const Input&)>& from_lot);

// Keeps what is amiss: unknown calculation or input with the nearest named; every missing input at once; none or
// several of which one is due. The steps are all there where `slips` has none. Throws PluginError.
std::vector<BoundStep> bind(const Recipe& recipe, Registry& registry, Slips& slips);

}  // namespace vatwright
