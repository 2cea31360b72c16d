#include "host/recipe/allowed.hpp"
#include "host/recipe/node_reader.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <vector>

namespace vatwright {
namespace {

struct Reading {
  double x, y, uncertainty;
  const Entry* entry;
};

// "40 g/hL" and "400 mg/L" are one place on the x axis: which of the readings holds there?
void refuse_twins(const NodeReader& n, const std::vector<Reading>& rising) {
  constexpr double alike = 1e-9;
  const auto twin = std::adjacent_find(rising.begin(), rising.end(), [](const Reading& a, const Reading& b) {
    return b.x - a.x <= alike * std::max(std::abs(a.x), std::abs(b.x));
  });
  if (twin == rising.end()) return;
  const Entry *first = twin->entry, *second = (twin + 1)->entry;
  if (second->mark.line < first->mark.line) std::swap(first, second);
  n.fail(second->mark,
         fmt::format("'{}' is the same as '{}' in line {}, column {}", second->key, first->key, first->mark.line,
                     first->mark.byte + 1),
         "keep one of the two readings, or write their mean");
}

std::string such_readings(const Input& input) {
  const bool light = input.dimension == dimension_of<Absorbance>();
  return fmt::format("such as {{{}... {}: ... {}}}", light ? "path: 10 mm, " : "", input.x_unit, input.unit);
}

}  // namespace

// {path: 10 mm, 420 nm: 0.35 AU, 520 nm: 0.42 AU}
Value read_series(const NodeReader& n, const Node& node) {
  if (node.kind != Node::Kind::map || node.entries.empty())
    n.fail(node.mark, "expected a map of " + std::string(n.input().x_unit) + " to " + std::string(n.input().unit),
           such_readings(n.input()));
  const Input column = first_column(n.input());
  Value value;
  std::vector<Reading> read;
  for (const auto& entry : node.entries) {
    if (entry.key == "path") {
      value.series.path = n.exact(entry.value, {dimension_of<Length>(), {}, "mm"});
      if (!(*value.series.path > 0))
        n.fail(entry.value.mark, "a path that is not above zero", "write that of the cell, such as 10 mm");
      continue;
    }
    Node key;
    key.kind = Node::Kind::text;
    key.text = entry.key;
    key.mark = entry.mark;
    const double x = n.exact(key, {n.input().x_dimension, {}, n.input().x_unit});
    n.at(key.mark, [&] { refuse_out_of_range(column, x, key.text); });
    const Measured y = n.measured(entry.value, n.expected());
    n.in_range(entry.value, y.value);
    read.push_back({x, y.value, y.uncertainty, &entry});
  }
  if (read.empty()) n.fail(node.mark, "no readings", such_readings(n.input()));
  if (n.input().dimension == dimension_of<Absorbance>() && !value.series.path)
    n.fail(node.mark, "an absorbance without its optical path", "add 'path: 10 mm' (the cell that was used)");
  std::stable_sort(read.begin(), read.end(), [](const Reading& a, const Reading& b) { return a.x < b.x; });
  refuse_twins(n, read);
  const bool uncertain = std::any_of(read.begin(), read.end(), [](const Reading& r) { return r.uncertainty > 0; });
  for (const auto& r : read) {
    value.series.points.emplace_back(r.x, r.y);
    if (uncertain) value.series.uncertainties.push_back(r.uncertainty);
  }
  return value;
}

}  // namespace vatwright
