// From sulfur dioxide to what is weighed or measured out, and back from the rounded amount.
#pragma once

#include "host/plugin/plugin.hpp"
#include "plugins/chemistry/dosing.hpp"
#include "plugins/lab/rounding.hpp"

namespace vatwright::sulfite::addition {

// One of mass and volume; `so2` is what the rounded amount holds.
struct Dose {
  std::optional<chemistry::ProductMass> mass;
  std::optional<Volume> volume;
  chemistry::SulfurDioxideMass so2 = as<chemistry::SulfurDioxide, Mass>(Mass{});
};

inline bool any(const Dose& dose) { return dose.so2.value() > Mass{}; }

using lab::Rounding;

// Rounded to what a balance or a measuring cylinder shows. Throws InputError for a solution without
// its strength, and for a strength of anything else.
Dose measure_out(const Inputs& in, chemistry::SulfurDioxideMass wanted, Rounding rounding);

// Writes the addition, and notes what the substance asks for in handling.
void write_addition(const Inputs& in, const Dose& dose, Outcome& out);

// Potassium and sodium that the salt brings: changes the lot where it was known, and notes it.
void bring_cations(const Inputs& in, const Dose& dose, Outcome& out);

}  // namespace vatwright::sulfite::addition
