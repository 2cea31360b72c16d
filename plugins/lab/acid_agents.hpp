// The acids that are added to must and wine: which acid each is, and which fact of a lot it moves.
#pragma once

#include "host/plugin/lot.hpp"
#include "plugins/chemistry/composition.hpp"

#include <string_view>

namespace vatwright::lab {

struct AcidAgent {
  std::string_view substance;  // in the catalogue
  chemistry::Acid acid;
  const Key<MassConcentration>* fact;
};
inline constexpr AcidAgent acid_agents[] = {{"tartaric acid", chemistry::Acid::tartaric, &lot::tartaric_acid},
                                            {"malic acid", chemistry::Acid::malic, &lot::malic_acid},
                                            {"lactic acid", chemistry::Acid::lactic, &lot::lactic_acid},
                                            {lot::added_citric_acid, chemistry::Acid::citric, &lot::citric_acid},
                                            {"citric acid monohydrate", chemistry::Acid::citric, &lot::citric_acid}};

}  // namespace vatwright::lab
