#include "plugins/ferment/yeast.hpp"

#include "plugins/lab/treatment_water.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

#include <cmath>

namespace vatwright::ferment::yeast {
namespace {

constexpr Density warm_water = 993.0 * kilogram_per_cubic_metre;  // at 37 °C (Kell, from memory)
constexpr double cells_of_a_gram = 2e10;
constexpr auto rest = "10 min";

struct Step {
  Volume must, all;
  Temperature after;
};

// Must stirred into the yeast cools it by the share that it becomes of the whole, and by no more than `largest`. The
// last step is into the tank itself.
std::vector<Step> steps_down(Volume yeast, Temperature from, Temperature to, TemperatureInterval largest) {
  std::vector<Step> all;
  while (from - to > largest * (1 + 1e-9)) {
    const TemperatureInterval gap = from - to;
    // Half and half, where that cools by no more.
    const double share = std::min<double>(0.5, largest / gap);
    const Volume must = yeast * (share / (1 - share));
    yeast += must;
    from = to + gap * (1 - share);
    all.push_back({must, yeast, from});
  }
  return all;
}

void tell_steps(const Inputs& in, const std::vector<Step>& all, Outcome& out) {
  Table table{.name = "steps down to the must",
              .columns = {{"step"}, {"must stirred in", "L", 1}, {"together", "L", 1}, {"then at", "°C", 1}, {"rest"}},
              .rows = {}};
  for (std::size_t i = 0; i < all.size(); ++i)
    table.rows.push_back(
        {std::to_string(i + 1), all[i].must.value(), all[i].all.value(), all[i].after.value(), std::string(rest)});
  table.rows.push_back(
      {std::string("into the tank"), Cell(), Cell(), in[lot::temperature].value(), std::string("stir")});
  out.tables.push_back(std::move(table));
}

void tell_tasks(const Inputs& in, Volume warm, const std::vector<Step>& all, Outcome& out) {
  out.task(fmt::format("warm {} of water to {}, strew the yeast on it, wait 15 to 20 min, never over 30, and stir",
                       print(warm, "L", 2), print(in[water_temperature], "°C", 0)));
  for (const auto& step : all)
    out.task(fmt::format("stir in {} of must, down to {}, and wait {}", print(step.must, "L", 1),
                         print(step.after, "°C", 1), rest));
  out.task(fmt::format("pour it into the must at {} and stir", print(in[lot::temperature], "°C", 1)));
}

}  // namespace

Outcome run(const Inputs& in) {
  if (in.get(lot::stage) == "wine")
    throw InputError(
        "yeast is pitched into must, and this lot is a wine",
        "for a second fermentation or a restart the yeast is first accustomed to alcohol: that is another way");
  if (in[lot::temperature] >= in[water_temperature])
    throw InputError("the must, at " + print(in[lot::temperature], "°C", 1) + ", is warmer than the water of the yeast",
                     "cool the must first");
  const Mass weighed = in.decided(mass).value_or(to_balance(in[dose] * in[lot::volume]));
  const Volume warm = weighed * in[water_ratio].value() / warm_water;
  const Fraction share(warm / in[lot::volume]);
  const auto all = steps_down(warm, in[water_temperature], in[lot::temperature], in[largest_step]);
  Volume drawn{};
  for (const auto& step : all) drawn += step.must;

  Outcome out;
  out.result(mass, weighed);
  out.result(water, warm);
  out.result(steps, coherent<Fraction>(static_cast<double>(all.size())));
  out.result(must_in_steps, drawn);
  if (!(weighed > Mass{})) {
    out.note("so little yeast is not weighed well: nothing is given");
    return out;
  }
  const auto bound = in[water_limit];
  const bool allowed = !bound || bound->met_by(share);
  if (bound) out.hold(water_limit, *bound, share, 2, "nothing was given: wake the yeast in less water, or in juice");
  if (!allowed) return out;
  lab::count_water(in, share, out);
  out.additions.push_back(
      {.substance = in[substance].id, .mass = weighed, .dose = figure(weighed / in[lot::volume], "g/hL", 1)});
  if (in.figures_only()) return out;
  tell_tasks(in, warm, all, out);
  tell_steps(in, all, out);
  out.note(
      fmt::format("{:.1f} million viable cells for a mL, at 2e10 for a gram of fresh yeast; what the sachet says "
                  "of water, warmth and time goes first",
                  weighed / in[lot::volume] / (1.0 * gram_per_litre) * cells_of_a_gram / 1000 / 1e6));
  out.note("the water goes into the must: " + print(share, "%", 2) + " of it");
  return out;
}

}  // namespace vatwright::ferment::yeast
