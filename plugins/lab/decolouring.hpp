// Whether enough colour stays where something takes it out of a wine.
#pragma once

#include "host/plugin/plugin.hpp"

namespace vatwright::lab {

inline constexpr std::string_view decolouring[] = {"PVPP", "activated carbon"};

inline constexpr Key<Fraction> transmittance{{.name = "transmittance",
                                              .help = "light that goes through the treated glass of the bench trial; "
                                                      "asked for where something takes colour out",
                                              .unit = "%",
                                              .valid = Range{0, 100},
                                              .source = {.title = "27 CFR 24.241, decolorizing juice or wine",
                                                         .place = "or 0.6 Lovibond in a cell of half an inch"}}};
inline constexpr Limit<Fraction> transmittance_limit{{.name = "light transmittance after decolouring",
                                                      .help = "most light that goes through a wine that was treated",
                                                      .unit = "%",
                                                      .beside = true}};

// Holds the treated glass against the rule sets; false where it is too pale, and nothing is to be dosed. Asks for the
// reading where a rule set wants it and it is not there.
bool colour_stays(const Inputs& in, std::string_view substance, Outcome& out);

}  // namespace vatwright::lab
