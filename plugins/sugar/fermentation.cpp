#include "plugins/sugar/fermentation.hpp"

#include "plugins/chemistry/fermentation.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

#include <cmath>

namespace vatwright::sugar::fermentation {
namespace {

constexpr Density stands_still = 0.5 * kilogram_per_cubic_metre;
// Sugar by density is good to about this: 0.4 % vol of alcohol and 2 g/L of extract move it by as much.
constexpr auto sugar_uncertainty = "± 6 g/L";
constexpr MassConcentration apart = 6.0 * gram_per_litre;

struct Course {
  chemistry::FermentingMust must;
  MassConcentration by_density, left;
};

Course read(const Inputs& in) {
  const auto must = chemistry::fermenting_must(in[original_density], yield_of(in), in[non_sugar]);
  const auto by_density = chemistry::sugar_left(must, in[lot::density]);
  const auto left = in.get(measured_sugar).value_or(by_density);
  if (left > must.sugar)
    throw InputError("sugar by analysis, " + print(left.value(), "g/L", 1) + ", is more than the must had, " +
                         print(must.sugar.value(), "g/L", 1),
                     "look at the original density, and count in what sugar was added");
  return {must, by_density, left};
}

bool still_moves(const Inputs& in) {
  const auto before = in.get(day_ago);
  return before && *before - in[lot::density] >= stands_still;
}

void check_pace(const Inputs& in, const Course& c, Outcome& out) {
  const auto before = in.get(day_ago);
  if (!before) return;
  const Density fall = *before - in[lot::density];
  if (fall < -1.0 * stands_still)
    throw InputError("the density has risen since yesterday, from " + print(before->value(), "kg/m³", 1) + " to " +
                         print(in[lot::density].value(), "kg/m³", 1),
                     "look whether the two are swapped, at the temperatures, and mix before you sample");
  const bool moves = still_moves(in);
  const bool dry = c.left <= dry_sugar;
  Check pace{.name = "the fermentation moves, or is at its end",
             .holds = moves || dry,
             .value = figure(c.left, "g/L", 1),
             .limit = figure(dry_sugar, "g/L", 1),
             .relation = "at most",
             .source = std::string(still_reading.title) + " (" + std::string(still_reading.standing) + ")",
             .remedy = {}};
  if (moves) {
    pace.value = figure(fall, "kg/m³", 1);
    pace.limit = figure(stands_still, "kg/m³", 1);
    pace.relation = "at least";
  } else if (!dry) {
    pace.remedy = fmt::format(
        "the fermentation has stopped with {} of sugar left: look at temperature, yeast, nitrogen "
        "and volatile acidity, and keep air and bacteria away until it runs again",
        print(c.left.value(), "g/L", 1));
  }
  out.checks.push_back(std::move(pace));
  if (dry && !moves) out.note("the fermentation has come to its end: no more than 4 g/L of sugar is left");
}

void say(const Inputs& in, const Course& c, Outcome& out) {
  out.note(fmt::format("by the yield of {} of sugar for 1 % vol, and {} of the must that is not sugar and stays",
                       print(in[yield].value(), "g/L", 2), print(c.must.other.value(), "g/L", 1)));
  if (in.has(measured_sugar)) {
    out.opinions.push_back({.name = "sugar left by density",
                            .here = figure(c.left, "g/L", 1),
                            .there = figure(c.by_density, "g/L", 1),
                            .matters = std::abs((c.left - c.by_density).value()) > apart.value(),
                            .source = std::string(tabarie.title)});
  } else {
    out.note(
        fmt::format("ethanol from densities is good to {} and sugar to {}: measure the sugar before you call the "
                    "wine dry",
                    must_uncertainty, sugar_uncertainty));
    if (in[lot::density] < chemistry::density_at(c.must, MassConcentration{}))
      out.note(
          "the density is below that expected of the dry wine: there is less extract than was taken, or more "
          "alcohol");
  }
  note_sweetness(in, c.left, in.get(lot::titratable_acidity), out);
  if (in.get(lot::colour) == "pink" && c.left > dry_sugar && !still_moves(in))
    out.note("pink wine is mostly made bone dry (common practice, no source), and this is not dry");
}

}  // namespace

Outcome run(const Inputs& in) {
  const Course c = read(in);
  Outcome out;
  const Strength so_far = chemistry::alcohol_at(c.must, c.left);
  out.result(ethanol, so_far);
  out.result(sugar_now, c.left);
  out.result(share, Fraction((c.must.sugar - c.left) / c.must.sugar));
  out.result(final_ethanol, chemistry::alcohol_at(c.must, MassConcentration{}));
  out.result(final_density, chemistry::density_at(c.must, MassConcentration{}));
  out.change(lot::density, in[lot::density]);
  out.change(lot::ethanol, so_far);
  out.change(lot::sugar, c.left);
  out.forget(lot::soluble_solids);  // a refractometer does not read sugar beside alcohol
  check_pace(in, c, out);
  if (!in.figures_only()) say(in, c, out);
  return out;
}

}  // namespace vatwright::sugar::fermentation
