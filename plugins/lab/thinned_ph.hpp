// pH after something without acids, such as sugar, spirit or water, was poured in: by the charge balance.
#pragma once

#include "plugins/lab/unmeasured.hpp"

#include <array>

namespace vatwright::lab {

// What the composition of a lot is inferred from, beside pH, titratable acidity, end point, stage and ethanol.
inline constexpr std::array acid_inputs{
    takes(lot::tartaric_acid), takes(lot::malic_acid),       takes(lot::lactic_acid), takes(lot::citric_acid),
    takes(lot::succinic_acid), takes(lot::volatile_acidity), takes(lot::potassium),   takes(lot::calcium),
    takes(lot::sodium),        takes(lot::free_so2)};

// What thinned_ph() wants of a lot; a calculation that calls it takes them.
inline constexpr auto ph_inputs =
    joined(std::array{takes(lot::ph), takes(lot::titratable_acidity), takes(lot::endpoint)}, acid_inputs);

// The lot's pH after `poured`, with the strength that it has then. Nothing where pH or titratable acidity is not known,
// where the acids that are given contradict them, and in a liquid of more than 20 % vol. `unmeasured_acids` is a model
// of a calculation that calls it.
std::optional<Ph> thinned_ph(const Inputs& in, const Poured& poured, Strength then);

// Pours it into the lot, whose pH follows; false where that is not known.
bool pour(const Inputs& in, const Poured& poured, Strength then, Outcome& out);

}  // namespace vatwright::lab
