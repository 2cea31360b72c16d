#include "host/cli/same_sheet.hpp"

#include "units/parse.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>

namespace vatwright {
namespace {

using Json = nlohmann::json;

// The second and later bytes of one character in UTF-8.
bool is_inside_a_character(char byte) { return (static_cast<unsigned char>(byte) & 0xC0U) == 0x80U; }

std::string told(const Json& value) {
  constexpr std::size_t most = 60;
  std::string text = value.dump(-1, ' ', false, Json::error_handler_t::replace);
  if (text.size() <= most) return text;
  std::size_t end = most;
  while (end > 0 && is_inside_a_character(text[end])) --end;
  return text.substr(0, end) + "...";
}

// How far the figures at a place, and at all places within it, may lie from each other, in the unit that they stand in.
using Grains = std::map<std::string, double>;

// A table in CSV has two decimals more than are declared.
double grain_of(int decimals) {
  constexpr int hidden = 3;
  return std::pow(10.0, -decimals - hidden);
}

// Of a check that fails, a sheet shows as many decimals as tell its two figures apart.
double grain_of(const Check& check) {
  const double declared = grain_of(std::max(check.value->decimals, check.limit->decimals));
  const Unit unit = parse_unit(check.value->unit);
  constexpr double small = 1e-3;
  return std::min(declared, small * std::abs(unit.number(check.value->number) - unit.number(check.limit->number)));
}

template <class Columns>
double finest(const Columns& columns) {
  int decimals = 0;
  for (const auto& column : columns) decimals = std::max(decimals, column.decimals);
  return grain_of(decimals);
}

void add_grains(const StepSheet& step, const std::string& at, Grains& out) {
  const Outcome& o = step.outcome;
  for (std::size_t i = 0; i < o.results.size(); ++i) {
    const ResultInfo& info = *o.results[i].info;
    const std::string here = fmt::format("{}, results, {}", at, info.name);
    out[here] = grain_of(info.decimals);
    // It is shown by its own first digits, however small.
    constexpr double small = 1e-6;
    if (i < step.result_spreads.size())
      out[here + ", uncertainty"] =
          small * parse_unit(info.unit).spread(step.result_spreads[i].standard, o.results[i].number);
  }
  for (std::size_t i = 0; i < o.checks.size(); ++i)
    if (o.checks[i].value && o.checks[i].limit) out[fmt::format("{}, checks {}", at, i + 1)] = grain_of(o.checks[i]);
  for (std::size_t i = 0; i < o.opinions.size(); ++i)
    out[fmt::format("{}, second opinions {}", at, i + 1)] = grain_of(o.opinions[i].here.decimals);
  for (std::size_t i = 0; i < o.tables.size(); ++i)
    out[fmt::format("{}, tables {}", at, i + 1)] = finest(o.tables[i].columns);
  for (std::size_t i = 0; i < o.charts.size(); ++i)
    out[fmt::format("{}, charts {}", at, i + 1)] = finest(std::array{o.charts[i].x, o.charts[i].y});
}

class Comparison {
 public:
  explicit Comparison(const Worksheet& anew) {
    for (std::size_t i = 0; i < anew.steps.size(); ++i)
      add_grains(anew.steps[i], fmt::format("steps {}", i + 1), grains_);
  }

  void compare(const Json& sheet, const Json& computed, const std::string& place, double grain) {
    if (const auto at = grains_.find(place); at != grains_.end()) grain = at->second;
    if (sheet.is_object() && computed.is_object()) return objects(sheet, computed, place, grain);
    if (sheet.is_array() && computed.is_array() && sheet.size() == computed.size()) {
      for (std::size_t i = 0; i < sheet.size(); ++i)
        compare(sheet[i], computed[i], fmt::format("{} {}", place, i + 1), grain);
      return;
    }
    ++out_.compared;
    if (sheet == computed || close(sheet, computed, grain)) return;
    out_.words.push_back(
        fmt::format("{}: the sheet says {}, computed anew it is {}", place, told(sheet), told(computed)));
  }

  SheetDifferences finish() { return std::move(out_); }

 private:
  // A count is a whole number, and so is the figure that stands in its place.
  static bool close(const Json& one, const Json& other, double grain) {
    if (!one.is_number() || !other.is_number() || !other.is_number_float()) return false;
    const double a = one.get<double>(), b = other.get<double>();
    constexpr double last_bits = 1e-9;
    return std::abs(a - b) <= std::max(grain, last_bits * std::abs(b));
  }

  void objects(const Json& sheet, const Json& computed, const std::string& place, double grain) {
    const std::string before = place.empty() ? "" : place + ", ";
    for (const auto& [key, value] : sheet.items()) {
      if (computed.contains(key))
        compare(value, computed[key], before + key, grain);
      else
        out_.words.push_back(fmt::format("{}{}: computed anew there is none", before, key));
    }
    for (const auto& [key, value] : computed.items())
      if (!sheet.contains(key)) out_.words.push_back(fmt::format("{}{}: the sheet has none", before, key));
  }

  Grains grains_;
  SheetDifferences out_;
};

}  // namespace

SheetDifferences differences_of(const Json& sheet, const Json& computed, const Worksheet& anew) {
  Comparison comparison(anew);
  comparison.compare(sheet, computed, "", 0);
  return comparison.finish();
}

}  // namespace vatwright
