#include "plugins/blend/design/tint.hpp"

#include <algorithm>

namespace vatwright::blend::design {
namespace {

chemistry::Spectrum spectrum_of(const Row& lot, Length path) {
  const Series& series = lot[lot::absorbance];
  chemistry::Spectrum out{.points = {}, .path = coherent<Length>(*series.path)};
  for (const auto& [wavelength, absorbance] : series.points)
    out.points.emplace_back(coherent<Length>(wavelength), coherent<Absorbance>(absorbance));
  return chemistry::through(out, path);
}

}  // namespace

bool is_colour(const Input& key) { return &key == &lightness || &key == &redness || &key == &yellowness; }

double component(const chemistry::Lab& colour, const Input& key) {
  if (&key == &lightness) return colour.lightness;
  return &key == &redness ? colour.a : colour.b;
}

Tints::Tints(const Problem& problem) {
  for (const auto& lot : problem.lots) lots_.push_back(spectrum_of(*lot.row, problem.path));
  auto shared = lots_.front();
  std::erase_if(shared.points, [&](const auto& point) {
    return !std::all_of(lots_.begin(), lots_.end(), [&](const auto& lot) { return lot.at(point.first).has_value(); });
  });
  for (auto& lot : lots_) {
    chemistry::Spectrum kept{.points = {}, .path = problem.path};
    for (const auto& [wavelength, unused] : shared.points) kept.points.emplace_back(wavelength, *lot.at(wavelength));
    lot = std::move(kept);
  }
  whole_spectrum_ = chemistry::spectral_step(shared).has_value();
  if (!whole_spectrum_ && !chemistry::has_four_wavelengths(shared))
    throw InputError("the colour of the blend cannot be predicted: too few wavelengths were read of every lot",
                     "give each lot its absorbance from 380 to 780 nm, or at 450, 520, 570 and 630 nm");
}

chemistry::Spectrum Tints::mixed(const std::vector<double>& shares, double swelling) const {
  chemistry::Spectrum out = lots_.front();
  for (std::size_t k = 0; k < out.points.size(); ++k) {
    Absorbance sum{};
    for (std::size_t i = 0; i < lots_.size(); ++i) sum += shares[i] * lots_[i].points[k].second;
    out.points[k].second = sum / swelling;
  }
  return out;
}

chemistry::Lab Tints::lab(const chemistry::Spectrum& spectrum) const {
  return whole_spectrum_ ? chemistry::lab(spectrum) : chemistry::lab_by_four(spectrum);
}

chemistry::Lab Tints::of(const std::vector<double>& shares, double swelling) const {
  return lab(mixed(shares, swelling));
}

std::vector<chemistry::Lab> Tints::changes(const std::vector<double>& shares, double swelling) const {
  constexpr double h = 1e-4;  // of the blend; the error of the difference is of the order of its square
  const auto blend = mixed(shares, swelling);
  std::vector<chemistry::Lab> out;
  for (const auto& lot : lots_) {
    const auto moved = [&](double share) {
      auto spectrum = blend;
      for (std::size_t k = 0; k < spectrum.points.size(); ++k)
        spectrum.points[k].second += share * (lot.points[k].second / swelling - blend.points[k].second);
      return lab(spectrum);
    };
    const auto more = moved(h), less = moved(-h);
    out.push_back(
        {(more.lightness - less.lightness) / (2 * h), (more.a - less.a) / (2 * h), (more.b - less.b) / (2 * h)});
  }
  return out;
}

}  // namespace vatwright::blend::design
