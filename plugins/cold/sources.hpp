// Sources that more than one calculation of this plugin names.
#pragma once

#include "host/plugin/plugin.hpp"

namespace vatwright::cold {

inline constexpr Source slip_guard = lot::guard;
inline constexpr Source handbook{.title = "Ribéreau-Gayon et al., Handbook of Enology, vol. 2",
                                 .place = "section 1.6, tests of tartrate stability"};
inline constexpr Source howe{.title = "P. Howe, Practical Winery, April 2013", .place = "tests of cold stability"};
inline constexpr Source awri_cold{.title = "Australian Wine Research Institute, cold stability",
                                  .place = "-4 °C for 3 days, filtered sample"};
inline constexpr Source awri_calcium{.title = "Australian Wine Research Institute, column on calcium instability",
                                     .place = "calcium above which there is risk, in red and in white wine"};
inline constexpr Source saturation_by_colour{.title = "practice limits of the saturation temperature by colour",
                                             .standing = "trade notes, not confirmed"};

// The tests that settle what a model only guides to.
inline constexpr std::string_view bitartrate_test =
    "a model is a guide: the cold test settles it. Filter a sample, hold it at -4 °C for 3 days and look for crystals "
    "that stay when it warms (Australian Wine Research Institute), or run the mini-contact test (cold.conductivity)";

}  // namespace vatwright::cold
