// Sources and readings that more than one calculation of this plugin names.
#pragma once

#include "host/plugin/plugin.hpp"
#include "plugins/chemistry/colour.hpp"
#include "units/print.hpp"

#include <string>

namespace vatwright::pink {

inline constexpr Source slip_guard = lot::guard;
inline constexpr Source intensity_method{.title = "OIV-MA-AS2-07B, chromatic characteristics",
                                         .place = "intensity and shade of red and rosé wines"};
inline constexpr Source colour_loss{.title = "Phytoma, La Vigne, archive VI1562118679",
                                    .place = "colour from settled must to wine, six French regions"};

// "60 to 90 %".
inline std::string loss_to_wine() {
  return print_number(100 * chemistry::least_loss_to_wine.value(), 0) + " to " +
         print(chemistry::most_loss_to_wine, "%", 0);
}

// The readings of a lot as the science takes them.
inline chemistry::Spectrum spectrum_of(const Series& series) {
  chemistry::Spectrum spectrum{{}, coherent<Length>(series.path.value())};
  for (const auto& [wavelength, absorbance] : series.points)
    spectrum.points.emplace_back(coherent<Length>(wavelength), coherent<Absorbance>(absorbance));
  return spectrum;
}

}  // namespace vatwright::pink
