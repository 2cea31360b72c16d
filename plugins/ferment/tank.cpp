#include "plugins/ferment/tank.hpp"

#include "plugins/chemistry/extraction.hpp"
#include "plugins/chemistry/hydrometer.hpp"
#include "units/parse.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace vatwright::ferment {
namespace {

using chemistry::day;

constexpr Time usual_hour = 8.0 * hour;

template <class Quantity>
Quantity standard(const Model<Quantity>& model) {
  return Quantity::from_value(model.standard * parse_unit(model.unit).slope(0));
}

Time time_of_day(const Row& row) { return row.get(at).value_or(usual_hour); }

Time since(const Row& row, std::chrono::sys_days first, Time first_at) {
  return static_cast<double>((row[date] - first).count()) * day + time_of_day(row) - first_at;
}

bool earlier(const Row* a, const Row* b) {
  return (*a)[date] != (*b)[date] ? (*a)[date] < (*b)[date] : time_of_day(*a) < time_of_day(*b);
}

Density highest(const std::vector<const Row*>& rows) {
  Density most{};
  for (const Row* row : rows) most = std::max(most, (*row)[lot::density]);
  return most;
}

Density at_20(const chemistry::FermentingMust& must, const Row& row, std::string_view by) {
  const Density read = row[lot::density];
  const auto t = row.get(lot::temperature);
  if (by.empty() || by == corrected) return read;
  if (!t)
    throw InputError("a density of " + print(read, "kg/m³", 1) + " has no temperature, and what read it is said",
                     "give the temperature of every reading, or say 'instrument: corrected'");
  return chemistry::density_at_20(must, by == glass_hydrometer ? chemistry::density_by_hydrometer(read, *t) : read, *t);
}

}  // namespace

Reckoning reckoning_of(const Inputs& in) {
  return {lab::yield_of(in), in[lab::non_sugar], in[dry_at], in.get(instrument)};
}

Tank::Tank(const std::vector<const Row*>& rows, std::optional<Density> original, std::optional<Density> dry,
           const Reckoning& by)
    : first_((*rows.front())[date]),
      original_given_(original.has_value()),
      non_sugar_(by.non_sugar),
      dry_at_(by.dry_at) {
  std::vector<const Row*> sorted = rows;
  std::stable_sort(sorted.begin(), sorted.end(), earlier);
  first_ = (*sorted.front())[date];
  first_at_ = time_of_day(*sorted.front());
  original_ = original.value_or(highest(sorted));
  must_ = chemistry::fermenting_must(original_, by.factor, by.non_sugar);
  for (const Row* row : sorted) {
    readings_.emplace_back(since(*row, first_, first_at_), at_20(must_, *row, by.instrument));
    temperature_ = row->get(lot::temperature);
  }
  dry_density_ = dry.value_or(chemistry::density_at(must_, MassConcentration{}));
  try {
    fit_ = chemistry::fit_course_as_told(readings_, dry_density_);
  } catch (const InputError& error) {
    no_fit_ = error.what();
  }
}

MassConcentration Tank::sugar_at(Density density) const {
  // A reading a hair above the must's own is one of the must.
  return density >= original_ ? must_.sugar : chemistry::sugar_left(must_, density);
}

Tank::Doubt Tank::doubt() const {
  const MassConcentration left = sugar();
  const Strength made = chemistry::alcohol_at(must_, left);
  Doubt out{};
  const auto join_in = [&](const chemistry::YieldFactor& factor, MassFraction non_sugar) {
    try {
      const auto other = chemistry::fermenting_must(original_, factor, non_sugar);
      const MassConcentration then = density() >= original_ ? other.sugar : chemistry::sugar_left(other, density());
      const auto both = [](auto a, auto b) { return decltype(a)::from_value(std::hypot(a.value(), b.value())); };
      out.sugar = both(out.sugar, MassConcentration(then - left));
      out.ethanol = both(out.ethanol, Strength(chemistry::alcohol_at(other, then) - made));
    } catch (const InputError&) {  // no such must comes down to this density
    }
  };
  join_in(must_.factor * (1 + standard(lab::sugar_to_alcohol).value()), non_sugar_);
  join_in(must_.factor, non_sugar_ + standard(lab::density_to_sugar));
  return out;
}

std::optional<Density> Tank::fall_of_a_day() const {
  if (!fit_) return std::nullopt;
  return fit_->course.at(now()) - fit_->course.at(now() + day);
}

std::optional<MassConcentration> Tank::sugar_of_a_day() const {
  if (!fit_) return std::nullopt;
  // By the slope of sugar over density of the whole way, so that scatter about the course does not matter.
  const auto way = original_ - chemistry::density_at(must_, MassConcentration{});
  return std::min<MassConcentration>(*fall_of_a_day() / way * must_.sugar, sugar());
}

// The density that stands over the end of the course while there is `dry at` of sugar.
Density Tank::above_end() const {
  return chemistry::density_at(must_, dry_at_) - chemistry::density_at(must_, MassConcentration{});
}

std::optional<Forecast> Tank::forecast() const {
  if (!fit_ || now() < fit_->course.middle) return std::nullopt;
  const auto when = fit_->course.when_above_end(above_end());
  if (!when) return std::nullopt;
  const Time u = fit_->uncertainty_of_when(above_end());
  const Time half = u * chemistry::coverage_95(fit_->freedom);
  return Forecast{*when, u, *when - half, *when + half};
}

std::optional<chemistry::Departure> Tank::departure() const {
  return chemistry::departure_of_last(readings_, dry_density_, resolution);
}

std::optional<Density> Tank::last_fall() const {
  if (readings_.size() < 2) return std::nullopt;
  const auto& [t0, d0] = readings_[readings_.size() - 2];
  const auto& [t1, d1] = readings_.back();
  if (t1 - t0 < 0.5 * day) return std::nullopt;
  return (d0 - d1) * (day / (t1 - t0));
}

std::string Tank::verdict() const {
  if (dry()) return "dry by its density: measure the sugar";
  const auto fall = last_fall();
  const bool begun = original_ - density() > 5.0 * kilogram_per_cubic_metre;
  if (fall && *fall < stands_still) return begun ? std::string(stopped) : "not begun";
  if (const auto last = departure(); last && last->slower()) return std::string(slower);
  return fit_ ? "runs" : "no course yet";
}

std::string Tank::day_of(Time time) const {
  const auto days = static_cast<int>(std::floor((time + first_at_) / day));
  const std::chrono::year_month_day on{first_ + std::chrono::days(days)};
  return fmt::format("{:04}-{:02}-{:02}", static_cast<int>(on.year()), static_cast<unsigned>(on.month()),
                     static_cast<unsigned>(on.day()));
}

}  // namespace vatwright::ferment
