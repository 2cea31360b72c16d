#include "plugins/nutrient/course.hpp"

#include "plugins/chemistry/fermentation.hpp"
#include "plugins/chemistry/hydrometer.hpp"
#include "plugins/chemistry/must.hpp"
#include "plugins/nutrient/nitrogen.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

namespace vatwright::nutrient::nitrogen {
namespace {

// Less alcohol than this is none that a laboratory is sure of.
constexpr Strength fermenting_from = 0.5 * percent_vol;
constexpr Fraction second_portion_at = coherent<Fraction>(1.0 / 3), middle = coherent<Fraction>(0.5);
constexpr std::string_view too_late = "never after the middle of the fermentation";

std::optional<MassConcentration> sugar_today(const Inputs& in, bool alcohol) {
  if (auto sugar = in.get(lot::sugar)) return sugar;
  const auto solids = in.get(lot::soluble_solids);
  if (!solids || alcohol) return std::nullopt;  // a refractometer does not read sugar beside alcohol
  return chemistry::must_sugar(chemistry::sucrose_density(*solids, celsius(20)));
}

// What the hydrometer shows when so much of the sugar is gone, by a usual must and yield; nothing where the sugar at
// the start is not known, or is that of no must.
std::optional<Density> density_when(const Course& course, Fraction gone) {
  constexpr MassConcentration most = 400.0 * gram_per_litre;
  if (!course.original || *course.original > most) return std::nullopt;
  const auto start =
      chemistry::sucrose_density(chemistry::must_dissolved(*course.original), chemistry::hydrometer_temperature);
  const auto must = chemistry::fermenting_must(start, chemistry::eu_yield_factor);
  return chemistry::density_at(must, must.sugar * (1.0 - gone.value()));
}

Moment first_portion(const Course& course) {
  return {course.begun ? "at once: the fermentation has begun"
                       : "when fermentation has begun: the density has fallen by about 10 kg/m³"};
}

}  // namespace

Course course_of(const Inputs& in) {
  const Strength ethanol = in.get(lot::ethanol).value_or(Strength{});
  const bool alcohol = ethanol >= fermenting_from;
  Course course;
  course.second =
      in.get(lot::stage) == "wine" || (!in.has(lot::stage) && in.get(lot::wine_class) == "sparkling" && alcohol);
  course.begun = alcohol && !course.second;
  course.original = sugar_today(in, alcohol);
  if (!course.begun || !course.original) return course;
  const MassConcentration fermented = chemistry::sugar_for(ethanol);
  *course.original += fermented;
  course.gone = fermented / *course.original;
  return course;
}

void check_time(const Course& course) {
  if (course.gone <= middle) return;
  throw InputError(
      fmt::format("{} of the sugar is gone by alcohol and sugar, and nutrients go in {}", print(course.gone, "%", 0),
                  too_late),
      "leave this step out: what the yeast cannot use any more feeds spoilage microbes. If 'sugar' is that "
      "of the must before fermentation, leave 'ethanol' out; for a second fermentation say 'stage: wine' "
      "and 'class: sparkling'");
}

std::vector<Moment> moments(const Inputs& in, const Course& course) {
  if (course.second) return {{"with the yeast, when the tank or the bottles are filled"}};
  if (course.gone >= second_portion_at) return {{fmt::format("at once, and {}", too_late)}};
  if (in[portions] == one_portion) return {first_portion(course)};
  const auto at = density_when(course, second_portion_at);
  Moment second{fmt::format("when a third of the sugar is gone{}; {}",
                            at ? ", at a density of about " + print(*at, "kg/m³", 0) : "", too_late)};
  if (course.original) second.sugar_left = *course.original * (1.0 - second_portion_at.value());
  return {first_portion(course), std::move(second)};
}

void say_course(const Inputs& in, const Course& course, Outcome& out) {
  if (course.gone >= second_portion_at && in[portions] != one_portion)
    out.note("a third of the sugar is gone, so that the time of the first portion is past: all goes in as one");
  if (course.begun && !course.original)
    out.note("how much sugar is left was not given: look that less than half of it is gone before you add anything");
}

}  // namespace vatwright::nutrient::nitrogen
