// One tank that ferments: its readings, the course fitted to them, and how it stands.
#pragma once

#include "plugins/chemistry/fermentation.hpp"
#include "plugins/chemistry/fermentation_course.hpp"
#include "plugins/ferment/keys.hpp"

#include <optional>
#include <string>
#include <vector>

namespace vatwright::ferment {

// Verdicts that want looking at.
inline constexpr std::string_view stopped = "stands still", slower = "slower than its own course";

// What all tanks are read by.
struct Reckoning {
  chemistry::YieldFactor factor;
  MassFraction non_sugar;
  MassConcentration dry_at;
  std::string_view instrument;  // empty: not said, the figures are taken to be for 20 °C
};
Reckoning reckoning_of(const Inputs& in);

struct Forecast {
  Time dry, uncertainty, earliest, latest;  // since the first reading
};

class Tank {
 public:
  // Throws InputError for readings of one time that differ, or that rise where they cannot.
  Tank(const std::vector<const Row*>& rows, std::optional<Density> original, std::optional<Density> dry,
       const Reckoning& by);

  const chemistry::FermentingMust& must() const { return must_; }
  const chemistry::DensityReadings& readings() const { return readings_; }
  const std::optional<chemistry::CourseFit>& fit() const { return fit_; }
  const std::string& no_fit() const { return no_fit_; }  // why there is none
  Time now() const { return readings_.back().first; }
  Density density() const { return readings_.back().second; }
  Density dry_density() const { return dry_density_; }
  MassConcentration sugar_at(Density density) const;
  MassConcentration sugar() const { return sugar_at(density()); }
  // Of the sugar and of the alcohol now: how far they are off as musts differ, standard.
  struct Doubt {
    MassConcentration sugar;
    Strength ethanol;
  };
  Doubt doubt() const;
  bool dry() const { return sugar() <= dry_at_; }
  std::optional<Temperature> temperature() const { return temperature_; }
  bool original_given() const { return original_given_; }
  Density original() const { return original_; }

  // Of the fitted course: by how much the density falls from now to a day later, and the sugar with it.
  std::optional<Density> fall_of_a_day() const;
  std::optional<MassConcentration> sugar_of_a_day() const;
  // Nothing without a course, or where the course is past its dry end.
  std::optional<Forecast> forecast() const;
  std::optional<chemistry::Departure> departure() const;
  // Fall in a day between the last two readings.
  std::optional<Density> last_fall() const;

  // In words, for the morning round: "sluggish", "stands still", ...
  std::string verdict() const;

  std::string day_of(Time time) const;  // "2026-09-21"

 private:
  Density above_end() const;

  std::chrono::sys_days first_;
  Time first_at_;  // time of the day of the first reading
  bool original_given_;
  Density original_{}, dry_density_{};
  MassFraction non_sugar_;
  chemistry::FermentingMust must_{};
  MassConcentration dry_at_;
  chemistry::DensityReadings readings_;
  std::optional<Temperature> temperature_;
  std::optional<chemistry::CourseFit> fit_;
  std::string no_fit_;
};

// What a density that a hydrometer shows scatters by at least, and what stands still.
inline constexpr Density resolution = 0.3 * kilogram_per_cubic_metre;
inline constexpr Density stands_still = 0.5 * kilogram_per_cubic_metre;
// Sugar reckoned from a density is good to about this.
inline constexpr MassConcentration by_density = 6.0 * gram_per_litre;

}  // namespace vatwright::ferment
