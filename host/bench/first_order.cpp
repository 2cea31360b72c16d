#include "host/bench/first_order.hpp"

#include "units/parse.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

namespace vatwright {
namespace {

// Calls `visit` for each figure of the steps.
template <class Visit>
void each_slot(const Slots& slots, const std::vector<std::size_t>& steps, Visit visit) {
  for (const std::size_t step : steps)
    for (std::size_t s = slots.first(step); s < slots.first(step + 1); ++s) visit(s);
}

}  // namespace

double Sensitivities::standard(std::size_t slot) const {
  double sum = 0;
  for (const Effect& effect : effects_[slot]) sum += effect.size * effect.size;
  return std::sqrt(sum);
}

void Sensitivities::name_the_chief(std::size_t slot, Spread& spread) const {
  double sum = 0, most = 0;
  for (const Effect& effect : effects_[slot]) {
    const double square = effect.size * effect.size;
    sum += square;
    if (square <= most) continue;
    most = square;
    spread.chief = (*readings_)[effect.reading].name;
  }
  if (sum > 0) spread.chief_share = most / sum;
}

std::string Sensitivities::advice(std::size_t slot, const ResultInfo& info) const {
  constexpr double worth_it = 0.2;  // of the variance (common practice, no source)
  const auto smaller = [](const Effect& a, const Effect& b) { return std::abs(a.size) < std::abs(b.size); };
  const auto chief = std::max_element(effects_[slot].begin(), effects_[slot].end(), smaller);
  if (chief == effects_[slot].end()) return {};
  const double all = standard(slot);
  if (!(chief->size * chief->size > worth_it * all * all)) return {};
  const Reading& reading = (*readings_)[chief->reading];
  if (reading.model != nullptr && reading.model->measure.empty()) return {};
  const double left = std::sqrt(std::max(all * all - chief->size * chief->size, 0.0));
  const double one = parse_unit(info.unit).slope(0);
  return fmt::format("{} would help most: without {} the ± of the {} would be {} in place of {}",
                     reading.model != nullptr ? fmt::format("to measure {}", reading.model->measure)
                                              : fmt::format("to read {} more closely", reading.name),
                     reading.model != nullptr ? "what is assumed in its stead" : "its ±", info.name,
                     print_spread(left / one, info.decimals),
                     with_unit(print_spread(all / one, info.decimals), info.unit));
}

std::vector<std::size_t> reached_by(const Reading& reading, const Reach& reach) {
  return reading.of_lot ? reach.of_lot(reading.origin) : reach.of_step(reading.origin);
}

Sensitivities sensitivities(const FirstRun& first, Variant& variant) {
  const Slots& slots = first.slots();
  Sensitivities out(slots.size(), variant.readings());
  Rerun run(first, variant);
  const std::vector<double>& middle = first.figures();
  std::vector<double> below(slots.size()), above(slots.size());
  std::vector<std::size_t> steps;
  for (std::size_t i = 0; i < variant.readings().size(); ++i) {
    const Reading& reading = variant.readings()[i];
    const bool same_origin = i > 0 && reading.of_lot == variant.readings()[i - 1].of_lot &&
                             reading.origin == variant.readings()[i - 1].origin;
    if (!same_origin) steps = reached_by(reading, first.reach());
    const auto on_one_side = [&](double value, std::vector<double>& figures) {
      const double set = variant.set(i, value);
      if (!run(steps, figures))
        each_slot(slots, steps, [&](std::size_t s) { figures[s] = std::numeric_limits<double>::quiet_NaN(); });
      return set;
    };
    const double low = on_one_side(reading.value - reading.standard, below);
    const double high = on_one_side(reading.value + reading.standard, above);
    variant.reset(i);
    each_slot(slots, steps, [&](std::size_t s) {
      const bool has_below = std::isfinite(below[s]), has_above = std::isfinite(above[s]);
      const double span = (has_above ? high : reading.value) - (has_below ? low : reading.value);
      if (!(span > 0)) return;
      const double effect =
          ((has_above ? above : middle)[s] - (has_below ? below : middle)[s]) / span * reading.standard;
      if (std::isfinite(effect)) out.add(s, {i, effect});
    });
  }
  return out;
}

}  // namespace vatwright
