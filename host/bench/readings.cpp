#include "host/bench/readings.hpp"

#include "host/plugin/lot.hpp"
#include "units/parse.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <limits>

namespace vatwright {

Variant::Variant(const Prepared& ready) : steps_(ready.steps), lots_(ready.lots) {
  for (auto& lot : lots_)
    for (const Input* key : lot::keys)
      if (const auto at = lot.analysis.find(key->name); at != lot.analysis.end())
        collect(*key, at->second, " of " + lot.name);
  for (std::size_t i = 0; i < steps_.size(); ++i)
    for (const auto& need : steps_[i].calculation->inputs)
      if (const auto at = steps_[i].given.find(need.input); at != steps_[i].given.end())
        collect(*need.input, at->second, fmt::format(", step {}", i + 1));
}

void Variant::collect(const Input& input, Value& value, const std::string& where) {
  if (value.uncertainty > 0) add(std::string(input.name) + where, input, value.number, value.uncertainty);
  auto& series = value.series;
  for (std::size_t i = 0; i < series.uncertainties.size(); ++i)
    if (series.uncertainties[i] > 0)
      add(fmt::format("{} at {:g} {}{}", input.name, parse_unit(input.x_unit).number(series.points[i].first),
                      input.x_unit, where),
          input, series.points[i].second, series.uncertainties[i]);
  for (std::size_t i = 0; i < value.rows.size(); ++i) {
    auto& row = value.rows[i];
    for (auto& [key, own] : row.own)
      collect(*key, own, (row.name.empty() ? fmt::format(" in line {}", i + 1) : " of " + row.name) + where);
  }
}

void Variant::add(std::string name, const Input& input, double& place, double standard) {
  Reading reading{std::move(name), place, standard, -std::numeric_limits<double>::infinity(),
                  std::numeric_limits<double>::infinity()};
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
