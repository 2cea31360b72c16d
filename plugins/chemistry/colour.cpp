#include "plugins/chemistry/colour.hpp"

#include "plugins/chemistry/cie_1964.hpp"
#include "units/error.hpp"
#include "units/print.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace vatwright::chemistry {
namespace {

Length in_nanometres(int nm) { return static_cast<double>(nm) * nanometre; }
double transmittance(Absorbance absorbance) { return std::pow(10.0, -absorbance.value()); }

// --- by the whole spectrum

constexpr std::array steps{5, 10};  // nm, the finer first

bool read_in_steps(const Spectrum& spectrum, int step) {
  for (int nm = observer_first; nm <= observer_last; nm += step)
    if (!spectrum.at(in_nanometres(nm))) return false;
  return true;
}

// Sums over the grid; `transmitted` gives the share of light at a wavelength in nm.
template <class Transmitted>
Tristimulus sum(int step, Transmitted transmitted) {
  Tristimulus of{0, 0, 0};
  double light = 0;
  for (int nm = observer_first; nm <= observer_last; nm += step) {
    const auto& row = cie_1964_d65[static_cast<std::size_t>((nm - observer_first) / observer_step)];
    const double through_sample = row.d65 * transmitted(nm);
    of.x += through_sample * row.x;
    of.y += through_sample * row.y;
    of.z += through_sample * row.z;
    light += row.d65 * row.y;
  }
  return {100 * of.x / light, 100 * of.y / light, 100 * of.z / light};
}

int step_or_refusal(const Spectrum& spectrum) {
  if (const auto step = spectral_step(spectrum)) return static_cast<int>(std::lround(*step / nanometre));
  throw InputError("L*a*b* needs the absorbance at every 5 or 10 nm from 380 to 780 nm",
                   "read the whole spectrum, or 450, 520, 570 and 630 nm for an estimate");
}

Tristimulus by_grid(const Spectrum& spectrum, int step) {
  return sum(step, [&](int nm) { return transmittance(spectrum.at(in_nanometres(nm)).value_or(Absorbance{})); });
}

// --- by four wavelengths

constexpr std::array four{450, 520, 570, 630};  // nm

struct FourTerms {
  std::array<double, four.size()> of_transmittance;
  double constant;
};
constexpr FourTerms four_x{{19.717, 1.884, 42.539, 32.474}, -1.841};
constexpr FourTerms four_y{{7.950, 34.764, 42.736, 15.759}, -1.180};
constexpr FourTerms four_z{{103.518, 4.190, 0.251, -1.831}, 0.818};

double apply(const FourTerms& terms, const std::array<double, four.size()>& transmittances) {
  double total = terms.constant;
  for (std::size_t i = 0; i < four.size(); ++i) total += terms.of_transmittance[i] * transmittances[i];
  return total;
}

Tristimulus by_four(const std::array<double, four.size()>& transmittances) {
  return {apply(four_x, transmittances), apply(four_y, transmittances), apply(four_z, transmittances)};
}

// --- L*a*b*

// CIE 15: a cube root, and the tangent to it near black.
constexpr double knee = 6.0 / 29;
double f(double t) { return t > knee * knee * knee ? std::cbrt(t) : t / (3 * knee * knee) + 4.0 / 29; }
double f_inverse(double v) { return v > knee ? v * v * v : 3 * knee * knee * (v - 4.0 / 29); }

}  // namespace

std::optional<Absorbance> Spectrum::at(Length wavelength) const {
  constexpr Length near = 0.01 * nanometre;  // what a unit conversion may be off, and no photometer is
  const auto found = std::lower_bound(points.begin(), points.end(), wavelength - near,
                                      [](const auto& point, Length sought) { return point.first < sought; });
  if (found == points.end() || found->first > wavelength + near) return std::nullopt;
  return found->second;
}

Spectrum through(const Spectrum& spectrum, Length path) {
  Spectrum other{spectrum.points, path};
  const double longer = path / spectrum.path;
  for (auto& [wavelength, absorbance] : other.points) absorbance *= longer;
  return other;
}

std::optional<Absorbance> intensity(const Spectrum& spectrum) {
  const auto yellow = spectrum.at(yellow_wavelength);
  const auto red = spectrum.at(red_wavelength);
  const auto blue = spectrum.at(blue_wavelength);
  if (!yellow || !red || !blue) return std::nullopt;
  return (*yellow + *red + *blue) * static_cast<double>(intensity_path / spectrum.path);
}

std::optional<Fraction> hue(const Spectrum& spectrum) {
  const auto yellow = spectrum.at(yellow_wavelength);
  const auto red = spectrum.at(red_wavelength);
  if (!yellow || !red || *red <= Absorbance{}) return std::nullopt;
  return *yellow / *red;
}

double chroma(const Lab& colour) { return std::hypot(colour.a, colour.b); }

std::optional<double> hue_angle(const Lab& colour) {
  if (chroma(colour) == 0) return std::nullopt;
  const double degrees = std::atan2(colour.b, colour.a) * 180 / std::numbers::pi;
  return degrees < 0 ? degrees + 360 : degrees;
}

std::optional<Length> spectral_step(const Spectrum& spectrum) {
  for (const int step : steps)
    if (read_in_steps(spectrum, step)) return in_nanometres(step);
  return std::nullopt;
}

Tristimulus tristimulus(const Spectrum& spectrum) { return by_grid(spectrum, step_or_refusal(spectrum)); }

Lab lab(const Spectrum& spectrum) {
  const int step = step_or_refusal(spectrum);
  return lab_of(tristimulus(spectrum), sum(step, [](int) { return 1.0; }));
}

bool has_four_wavelengths(const Spectrum& spectrum) {
  for (const int nm : four)
    if (!spectrum.at(in_nanometres(nm))) return false;
  return true;
}

Tristimulus tristimulus_by_four(const Spectrum& spectrum) {
  std::array<double, four.size()> transmittances{};
  for (std::size_t i = 0; i < four.size(); ++i) {
    const auto read = spectrum.at(in_nanometres(four[i]));
    if (!read)
      throw InputError("the estimate of L*a*b* needs the absorbance at 450, 520, 570 and 630 nm, and " +
                           std::to_string(four[i]) + " nm is missing",
                       "read it too, or the whole spectrum from 380 to 780 nm");
    transmittances[i] = transmittance(*read);
  }
  const Tristimulus found = by_four(transmittances);
  if (found.x < 0 || found.y < 0 || found.z < 0)
    throw InputError("the liquid is too dark for L*a*b* from four wavelengths through " + print(spectrum.path, "mm", 1),
                     "ask for a shorter path, or read the whole spectrum from 380 to 780 nm");
  return found;
}

Lab lab_by_four(const Spectrum& spectrum) { return lab_of(tristimulus_by_four(spectrum), by_four({1, 1, 1, 1})); }

Lab lab_of(const Tristimulus& sample, const Tristimulus& white) {
  const double fx = f(sample.x / white.x);
  const double fy = f(sample.y / white.y);
  const double fz = f(sample.z / white.z);
  return {116 * fy - 16, 500 * (fx - fy), 200 * (fy - fz)};
}

Tristimulus tristimulus_of(const Lab& colour, const Tristimulus& white) {
  const double fy = (colour.lightness + 16) / 116;
  return {white.x * f_inverse(fy + colour.a / 500), white.y * f_inverse(fy), white.z * f_inverse(fy - colour.b / 200)};
}

}  // namespace vatwright::chemistry
