#include "plugins/sugar/fermentation.hpp"

#include "plugins/chemistry/fermentation.hpp"
#include "plugins/chemistry/hydrometer.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

#include <cmath>

namespace vatwright::sugar::fermentation {
namespace {

constexpr Density stands_still = 0.5 * kilogram_per_cubic_metre;
// Sugar by density is good to about this: 0.4 % vol of alcohol and 2 g/L of extract move it by as much.
constexpr MassConcentration apart = 6.0 * gram_per_litre;

struct Course {
  chemistry::FermentingMust must;
  Density density;  // of today, at 20 °C
  MassConcentration by_density, left;
};

Density at_20(const chemistry::FermentingMust& must, Density reading, std::string_view by, Temperature t) {
  if (by == refractometer) refuse_instrument("density", by);
  return chemistry::density_at_20(must, by == glass_hydrometer ? chemistry::density_by_hydrometer(reading, t) : reading,
                                  t);
}

Course read(const Inputs& in) {
  const auto must = chemistry::fermenting_must(in[original_density], yield_of(in), non_sugar_of(in));
  const auto by = raw_instrument(in);
  const Density density = by.empty() ? in[lot::density] : at_20(must, in[lot::density], by, in[lot::temperature]);
  const auto by_density = chemistry::sugar_left(must, density);
  const auto left = in.get(measured_sugar).value_or(by_density);
  if (left > must.sugar)
    throw InputError(
        "sugar by analysis, " + print(left, "g/L", 1) + ", is more than the must had, " + print(must.sugar, "g/L", 1),
        "look at the original density, and count in what sugar was added");
  return {must, density, by_density, left};
}

bool still_moves(const Inputs& in) {
  const auto before = in.get(day_ago);
  return before && *before - in[lot::density] >= stands_still;
}

bool dry(const Course& c) { return c.left <= lab::dry_sugar; }

// Little sugar, by analysis or at a density that stands still. A density alone cannot tell.
bool has_ended(const Inputs& in, const Course& c) {
  return dry(c) && !still_moves(in) && (in.has(day_ago) || in.has(measured_sugar));
}

void check_pace(const Inputs& in, const Course& c, Outcome& out) {
  const auto before = in.get(day_ago);
  if (!before) return;
  const Density fall = *before - in[lot::density];
  if (fall < -1.0 * stands_still)
    throw InputError("the density has risen since yesterday, from " + print(*before, "kg/m³", 1) + " to " +
                         print(in[lot::density], "kg/m³", 1),
                     "look whether the two are swapped, at the temperatures, and mix before you sample");
  const bool moves = still_moves(in);
  Check pace{.name = "the fermentation moves, or is at its end",
             .holds = moves || dry(c),
             .value = figure(c.left, "g/L", 1),
             .limit = figure(lab::dry_sugar, "g/L", 1),
             .relation = "at most",
             .source = std::string(still_reading.title) + " (" + std::string(still_reading.standing) + ")",
             .remedy = {}};
  if (moves) {
    pace.value = figure(fall, "kg/m³", 1);
    pace.limit = figure(stands_still, "kg/m³", 1);
    pace.relation = "at least";
  } else if (!dry(c)) {
    pace.remedy = fmt::format(
        "the fermentation has stopped with {} of sugar left: look at temperature, yeast, nitrogen "
        "and volatile acidity, and keep air and bacteria away until it runs again",
        print(c.left, "g/L", 1));
  }
  out.checks.push_back(std::move(pace));
}

void say_stage(const Inputs& in, const Course& c, Outcome& out) {
  if (has_ended(in, c)) {
    out.note(fmt::format("the fermentation has come to its end: no more than {} of sugar is left",
                         print(lab::dry_sugar, "g/L", 0)));
    if (in.get(lot::stage) != stage_wine)
      out.note("from here on the lot is a wine, and the limits of wine hold for it");
  } else if (in.get(lot::stage) == stage_must && (dry(c) || in.has(day_ago)) && !still_moves(in)) {
    out.note(
        dry(c) ? "whether it has ended, a density alone cannot tell: the lot stays a must until 'sugar by analysis' or "
                 "'density a day ago' shows it"
               : "the lot stays a must, and no limit of wine is held against it; when it is to keep this sugar, give "
                 "'stage: wine' in the recipe");
  }
}

void say_warmth(const Inputs& in, const Course& c, Outcome& out) {
  const auto t = unsaid_temperature(in);
  if (!t || in.has(measured_sugar)) return;
  const auto more = where_known([&]() -> MassConcentration {
    return chemistry::sugar_left(c.must, at_20(c.must, c.density, glass_hydrometer, *t)) - c.left;
  });
  note_unsaid(*t, lot::density.name, glass_hydrometer, more, out);
}

void say(const Inputs& in, const Course& c, Outcome& out) {
  say_stage(in, c, out);
  say_warmth(in, c, out);
  out.note(fmt::format("by the yield of {} of sugar for 1 % vol, and {} of the must that is not sugar and stays",
                       print(in[yield], "g/L", 2), print(c.must.other, "g/L", 1)));
  if (in.has(measured_sugar)) {
    out.opinions.push_back({.name = "sugar left by density",
                            .here = figure(c.left, "g/L", 1),
                            .there = figure(c.by_density, "g/L", 1),
                            .matters = std::abs((c.left - c.by_density).value()) > apart.value(),
                            .source = std::string(tabarie.title)});
  } else {
    out.note(
        fmt::format("ethanol from densities is good to {} and sugar to ± {}: measure the sugar before you call the "
                    "wine dry",
                    must_uncertainty, print(apart, "g/L", 0)));
    if (c.density < chemistry::density_at(c.must, MassConcentration{}))
      out.note(
          "the density is below that expected of the dry wine: there is less extract than was taken, or more "
          "alcohol");
  }
  lab::note_sweetness(in, c.left, in.get(lot::titratable_acidity), out);
  if (in.get(lot::colour) == "pink" && !dry(c) && !still_moves(in))
    out.note("pink wine is mostly made bone dry (common practice, no source), and this is not dry");
}

// The must's nitrogen is eaten, and its ammonium with it: a second fermentation begins a new account.
void become_wine(const Inputs& in, Outcome& out) {
  out.change(lot::stage, stage_wine);
  out.forget(lot::assimilable_nitrogen);
  if (!in.has(lot::treated_with)) return;
  Amounts kept = in[lot::treated_with];
  std::erase_if(kept, [](const auto& amount) {
    return amount.first == lot::diammonium_phosphate || amount.first == lot::ammonium_sulfate;
  });
  out.change(lot::treated_with, std::move(kept));
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
  out.change(lot::density, c.density);
  out.change(lot::ethanol, so_far);
  out.change(lot::sugar, c.left);
  out.forget(lot::soluble_solids);  // a refractometer does not read sugar beside alcohol
  out.reagents.emplace_back(lab::gas_of_fermentation);
  if (has_ended(in, c)) become_wine(in, out);
  if (dry(c)) lab::leave_must(in, out);
  check_pace(in, c, out);
  if (!in.figures_only()) say(in, c, out);
  return out;
}

}  // namespace vatwright::sugar::fermentation
