// What the rule sets say of a plain dose, and what of the dose each row counts.
#pragma once

#include "host/plugin/plugin.hpp"
#include "plugins/lab/dosed_limits.hpp"

#include <vector>

namespace vatwright::cellar::plain_dose {

using Counted = lab::Allowance<MassConcentration>;

// The rows that bind a dose of the substance. What they count is what the account of the lot keeps: the substance as it
// is weighed, where its formula says what acts in it; else what acts in the product. Throws InputError where a row
// counts what acts, and the catalogue leaves that to a label whose share the step does not say.
std::vector<Counted> law_of(const Inputs& in, const SubstanceFacts& of);

bool passes(const std::vector<Counted>& law, MassConcentration dosed);

// Holds the dose that is given; of one that is not given, says how much would be allowed.
void hold(const std::vector<Counted>& law, MassConcentration dosed, Outcome& out);
void refuse(const std::vector<Counted>& law, MassConcentration wanted, Outcome& out);

// Whether the formula of the substance says how much of it acts.
using lab::by_formula;

}  // namespace vatwright::cellar::plain_dose
