#include "host/bench/readings.hpp"

#include "host/plugin/lot.hpp"
#include "units/parse.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <limits>

namespace vatwright {

namespace {

bool uncertain(const Value& value) {
  const auto& of_points = value.series.uncertainties;
  return value.uncertainty > 0 || std::any_of(of_points.begin(), of_points.end(), [](double u) { return u > 0; }) ||
         std::any_of(value.rows.begin(), value.rows.end(), [](const Row& row) {
           return std::any_of(row.own.begin(), row.own.end(),
                              [](const KeyedValue& own) { return uncertain(own.value); });
         });
}

}  // namespace

bool has_readings(const Prepared& ready) {
  const auto any = [](const auto& values) {
    return std::any_of(values.begin(), values.end(), [](const auto& entry) { return uncertain(entry.second); });
  };
  return std::any_of(ready.lots.begin(), ready.lots.end(), [&](const LotState& lot) { return any(lot.analysis); }) ||
         std::any_of(ready.steps.begin(), ready.steps.end(), [&](const BoundStep& step) { return any(step.given); });
}

Variant::Variant(const Prepared& ready) : steps_(ready.steps), lots_(ready.lots) {
  for (std::size_t i = 0; i < lots_.size(); ++i)
    for (const Input* key : lot::keys)
      if (const auto at = lots_[i].analysis.find(key->name); at != lots_[i].analysis.end())
        collect(*key, at->second, {" of " + lots_[i].name, true, i});
  for (std::size_t i = 0; i < steps_.size(); ++i) {
    for (const auto& need : steps_[i].calculation->inputs)
      if (const auto at = steps_[i].given.find(need.input); at != steps_[i].given.end())
        collect(*need.input, at->second, {fmt::format(", step {}", i + 1), false, i});
    for (const ModelInfo* model : steps_[i].calculation->models) add_model(*model, i);
  }
}

void Variant::add_model(const ModelInfo& model, std::size_t step) {
  constexpr double unbounded = std::numeric_limits<double>::infinity();
  readings_.push_back({.name = fmt::format("the model of {}{}", model.name,
                                           steps_.size() > 1 ? fmt::format(", step {}", step + 1) : std::string()),
                       .standard = model.standard * parse_unit(model.unit).slope(0),
                       .low = -unbounded,
                       .high = unbounded,
                       .of_lot = false,
                       .origin = step,
                       .model = &model});
  places_.push_back(&steps_[step].deviations[&model]);
}

void Variant::collect(const Input& input, Value& value, const Where& where) {
  if (value.uncertainty > 0) add(std::string(input.name) + where.words, input, value.number, value.uncertainty, where);
  auto& series = value.series;
  for (std::size_t i = 0; i < series.uncertainties.size(); ++i)
    if (series.uncertainties[i] > 0)
      add(fmt::format("{} at {:g} {}{}", input.name, parse_unit(input.x_unit).number(series.points[i].first),
                      input.x_unit, where.words),
          input, series.points[i].second, series.uncertainties[i], where);
  for (std::size_t i = 0; i < value.rows.size(); ++i) {
    auto& row = value.rows[i];
    const std::string words = (row.name.empty() ? fmt::format(" in line {}", i + 1) : " of " + row.name) + where.words;
    for (auto& [key, own] : row.own) collect(*key, own, {words, where.of_lot, where.origin});
  }
}

void Variant::add(std::string name, const Input& input, double& place, double standard, const Where& where) {
  Reading reading{.name = std::move(name),
                  .value = place,
                  .standard = standard,
                  .low = -std::numeric_limits<double>::infinity(),
                  .high = std::numeric_limits<double>::infinity(),
                  .of_lot = where.of_lot,
                  .origin = where.origin};
  if (input.valid) {
    const Unit unit = parse_unit(input.unit);
    const double a = unit.coherent(input.valid->low), b = unit.coherent(input.valid->high);
    reading.low = std::min(a, b);
    reading.high = std::max(a, b);
  }
  readings_.push_back(std::move(reading));
  places_.push_back(&place);
}

double Variant::set(std::size_t reading, double value) {
  const auto& r = readings_[reading];
  return *places_[reading] = std::clamp(value, r.low, r.high);
}

}  // namespace vatwright
