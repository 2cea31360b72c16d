// The saturation temperature that a stable wine may have.
#pragma once

#include "plugins/cold/sources.hpp"
#include "units/constants.hpp"

#include <string>

namespace vatwright::cold {

inline constexpr Key<Temperature> most_saturation{{.name = "most saturation temperature",
                                                   .help = "criterion of a stable wine; default by class and colour",
                                                   .unit = "°C",
                                                   .valid = Range{-10, 40},
                                                   .usual = Range{5, 24},
                                                   .source = saturation_by_colour}};

// Where the practice limits are meant for.
inline constexpr Temperature held_near = celsius(-4);

struct Criterion {
  Temperature most;
  std::string_view kind;    // of wine, or "as given"
  std::string_view source;  // with its standing
};

// The one given, else by class (sparkling base first) and colour; a wine of unknown colour is held to
// the limit of white wine, the strictest of the still ones.
Criterion criterion_of(const Inputs& in);

// Holds `found` against it; `name` says what is judged.
Check saturation_check(std::string_view name, Temperature found, const Criterion& criterion, std::string_view remedy);

}  // namespace vatwright::cold
