// A step that another calculation answers than the one that it names (HandOver).
#pragma once

#include "host/plugin/description.hpp"
#include "host/recipe/recipe.hpp"

#include <deque>
#include <string_view>

namespace vatwright {

// How such a choice is handed over; nullptr where the calculation answers it itself.
const HandOver* handed_over(const Calculation& of, const Input& input, std::string_view choice);

// The same for what the step says; nullptr where it says no such choice.
const HandOver* handed_over(const Calculation& of, const StepSpec& step);

// What an input of the step is called in the calculation that answers it.
std::string_view name_there(const HandOver& how, std::string_view name);

// The step as one of the calculation that answers it.
class HandedStep {
 public:
  // Keeps in `slips` what the calculation has no input for, with how to say it instead.
  HandedStep(const StepSpec& step, const HandOver& how, const Calculation& answers, const Document& doc, Slips& slips);
  HandedStep(const HandedStep&) = delete;
  HandedStep& operator=(const HandedStep&) = delete;
  HandedStep(HandedStep&&) = delete;
  HandedStep& operator=(HandedStep&&) = delete;
  ~HandedStep() = default;

  const StepSpec& spec() const { return spec_; }

 private:
  StepSpec spec_;
  std::deque<Node> says_{};  // that `spec` points into
};

}  // namespace vatwright
