// What the models of the steps leave the figures uncertain by, on a sheet whose readings carry no ±.
#pragma once

#include "host/bench/prepared.hpp"

namespace vatwright {

// A ± of the models alone at the figures would pass for that of a sheet whose readings carry one: it stands in words,
// in the notes of the steps, as the least that the figures are uncertain by, with the measurement that would help most.
void tell_models_alone(const Prepared& ready, Worksheet& sheet);

}  // namespace vatwright
