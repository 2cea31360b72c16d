// What a sheet says of a carbonate beside its figures.
#pragma once

#include "plugins/acid/plan.hpp"

namespace vatwright::acid::reduction {

// Throws InputError where the calcium that is brought would find too little tartaric acid.
void refuse_calcium_left(const Question& q, MassConcentration dosed);

// Whether there is tartaric acid enough for the crystals.
void check_crystals(const Question& q, MassConcentration dosed, Outcome& out);

// The crystals, what stays dissolved, the pH in the tank, other ways, the rule of thumb: of a dose that is given.
void say_course(const Inputs& in, const Question& q, MassConcentration dosed, const State& state, Outcome& out);

}  // namespace vatwright::acid::reduction
