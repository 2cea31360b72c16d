// The colour of a wine from its absorbance: intensity and hue (OIV-MA-AS2-07B), and CIE L*a*b* under
// D65 as the 10° observer sees it (CIE 15; OIV-MA-AS2-11, of which title and scope were read, its
// formulas from memory). A colour is of one optical path: name it with every figure.
#pragma once

#include "units/constants.hpp"

#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace vatwright::chemistry {

// What a photometer reads: wavelength -> absorbance, by rising wavelength, through one path.
struct Spectrum {
  std::vector<std::pair<Length, Absorbance>> points;
  Length path;

  // The reading at a wavelength, to 0.01 nm; nothing when it was not read there.
  std::optional<Absorbance> at(Length wavelength) const;
};

// The same liquid through another path: absorbance goes with the path, wavelength by wavelength. It
// must come before any sum over wavelengths; L*a*b* cannot be carried to another path.
Spectrum through(const Spectrum& spectrum, Length path);

// Wavelengths of OIV-MA-AS2-07B, and its path.
inline constexpr Length yellow_wavelength = 420.0 * nanometre;
inline constexpr Length red_wavelength = 520.0 * nanometre;
inline constexpr Length blue_wavelength = 620.0 * nanometre;
inline constexpr Length intensity_path = 0.01 * metre;

// A420 + A520 + A620 through 10 mm. Nothing when one of the three was not read.
std::optional<Absorbance> intensity(const Spectrum& spectrum);
// A420 / A520. Nothing when one was not read, or nothing absorbs at 520 nm.
std::optional<Fraction> hue(const Spectrum& spectrum);

// Relative to a perfectly clear liquid, for which Y is 100.
struct Tristimulus {
  double x, y, z;
};

struct Lab {
  double lightness;  // L*: 100 is clear, 0 black
  double a;          // from green (below 0) to red
  double b;          // from blue (below 0) to yellow
};
double chroma(const Lab& colour);
// h, in degrees from 0 to 360; nothing for a colour without chroma.
std::optional<double> hue_angle(const Lab& colour);

// --- by the whole spectrum

// 5 nm or 10 nm when every wavelength of such a grid from 380 to 780 nm was read (there may be others
// besides); nothing otherwise. The OIV asks for 5 nm.
std::optional<Length> spectral_step(const Spectrum& spectrum);

// Through the path of the spectrum. Throws InputError when `spectral_step` finds no grid.
Tristimulus tristimulus(const Spectrum& spectrum);

// The white is summed over the same grid as the sample, so that water is exactly 100, 0, 0.
Lab lab(const Spectrum& spectrum);

// --- by four wavelengths: 450, 520, 570 and 630 nm

bool has_four_wavelengths(const Spectrum& spectrum);

// An estimate for red and pink wines, fitted to spectra of such wines (Ayala, Echávarri, Negueruela,
// American Journal of Enology and Viticulture 48 (1997) 357; coefficients from memory). Throws
// InputError when one of the four is missing, or when the liquid is too dark for the fit: X, Y or Z
// would be below zero. The white is that of the fit.
Tristimulus tristimulus_by_four(const Spectrum& spectrum);
Lab lab_by_four(const Spectrum& spectrum);

// L*a*b* of X, Y, Z against a white (CIE 15), and back.
Lab lab_of(const Tristimulus& sample, const Tristimulus& white);
Tristimulus tristimulus_of(const Lab& colour, const Tristimulus& white);

// --- from must to wine

// Share of the colour of a settled must that is gone in its wine, of musts of six French regions
// (Phytoma, La Vigne, archive VI1562118679): not to be predicted within these bounds.
inline constexpr Fraction least_loss_to_wine = 60.0 * percent;
inline constexpr Fraction most_loss_to_wine = 90.0 * percent;
inline constexpr Fraction middle_loss_to_wine = (least_loss_to_wine + most_loss_to_wine) / 2.0;

}  // namespace vatwright::chemistry
