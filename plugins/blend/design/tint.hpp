// CIE L*a*b* of a blend: absorbance adds up (Beer and Lambert), the colour does not, so that it is a
// straight line near one blend only.
#pragma once

#include "plugins/blend/design/problem.hpp"
#include "plugins/chemistry/colour.hpp"

#include <vector>

namespace vatwright::blend::design {

bool is_colour(const Input& key);
// The part of a colour that the key is.
double component(const chemistry::Lab& colour, const Input& key);

class Tints {
 public:
  // The spectra of all lots through the problem's path, at the wavelengths that all were read at.
  // Throws InputError when those are too few for a colour.
  explicit Tints(const Problem& problem);

  // `swelling`: volume after contraction over the sum before.
  chemistry::Lab of(const std::vector<double>& shares, double swelling) const;
  // How the colour changes with more of each lot in place of the blend, per share.
  std::vector<chemistry::Lab> changes(const std::vector<double>& shares, double swelling) const;

 private:
  chemistry::Spectrum mixed(const std::vector<double>& shares, double swelling) const;
  chemistry::Lab lab(const chemistry::Spectrum& spectrum) const;

  std::vector<chemistry::Spectrum> lots_;
  bool whole_spectrum_ = false;
};

}  // namespace vatwright::blend::design
