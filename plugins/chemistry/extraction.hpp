// How colour comes out of skins: to first order, so that what is still to come falls by the same share
// every hour. A(t) = A∞ - (A∞ - A0) exp(-k t), fitted to readings of colour against time.
//
// Source of the form: pseudo-first-order extraction was the best of the models tried on grape marc in
// Sant'Anna, Food and Bioprocess Technology 6 (2013) 3473 (abstract; dried marc in ethanol, so that its
// constants do not hold for must: they are fitted here to the must's own readings).
#pragma once

#include "plugins/chemistry/least_squares.hpp"
#include "units/constants.hpp"

#include <optional>
#include <utility>
#include <vector>

namespace vatwright::chemistry {

using ColourReadings = std::vector<std::pair<Time, Absorbance>>;  // by rising time

struct Extraction {
  Absorbance start;    // A0, at 0 h: fitted, or as it was given
  Absorbance plateau;  // A∞
  Time half_time;      // in which half of what is still to come comes: ln 2 / k

  Absorbance at(Time time) const;
  // When the colour is reached. Nothing from the plateau on, and below the start.
  std::optional<Time> when(Absorbance colour) const;
};

struct ExtractionFit {
  Extraction course;
  Absorbance scatter;   // residual standard deviation
  std::size_t freedom;  // readings less fitted parameters, at least 1
  bool start_fitted;
  kernel::Fit fit;  // plateau (AU), rate constant (1/h), and the start (AU) when it was fitted

  Absorbance plateau_uncertainty() const;  // standard
  // Standard uncertainty of `course.when(colour)`, to first order from the covariance. Throws
  // std::logic_error where that has no answer.
  Time uncertainty_of_when(Absorbance colour) const;
};

// Least readings for a fit that also says how sure it is: one more than there are parameters.
constexpr std::size_t least_readings(bool start_known) { return start_known ? 3 : 4; }

// `start`: the colour at 0 h, when it is known (of juice that has not met the skins); else it is fitted.
// Throws InputError when the readings are too few, when the colour does not rise towards a plateau (it
// falls, or climbs in a straight line), or when the readings leave its rate as unsure as it is large. A
// fitted start may come out below zero.
ExtractionFit fit_extraction(const ColourReadings& readings, std::optional<Absorbance> start = std::nullopt);

// Factor of the two-sided 95 % interval (Student's t).
double coverage_95(std::size_t freedom);

}  // namespace vatwright::chemistry
