// What the rule sets say of a plain dose, and what of the dose each row counts.
#pragma once

#include "host/plugin/plugin.hpp"
#include "plugins/lab/dosed_limits.hpp"

namespace vatwright::cellar::plain_dose {

// The rows that bind a dose of the substance. What they count is what the account of the lot keeps: the substance as it
// is weighed, where its formula says what acts in it; else what acts in the product. Throws InputError where a row
// counts what acts, and the catalogue leaves that to a label whose share the step does not say.
lab::Law law_of(const Inputs& in, const SubstanceFacts& of);

// Of a dose that is not given, says how much would be allowed.
void refuse(const lab::Law& law, MassConcentration wanted, Outcome& out);

// Whether the formula of the substance says how much of it acts.
using lab::by_formula;

}  // namespace vatwright::cellar::plain_dose
