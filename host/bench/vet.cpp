#include "host/bench/vet.hpp"

#include "host/loader/plugin_file.hpp"
#include "host/plugin/lot.hpp"
#include "units/parse.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>

namespace vatwright {
namespace {

class Vetting {
 public:
  Vetting(const Calculation& calculation, const std::string& id) : calculation_(calculation), id_(id) {}

  void finite(double number, std::string_view what) const {
    if (!std::isfinite(number)) refuse(std::string(what) + " is not a finite number");
  }
  void figure(const Figure& figure, std::string_view what) const {
    finite(figure.number, what);
    if (figure.unit.empty()) refuse(std::string(what) + " has no unit");
    unit_for(figure.dimension, figure.unit, what);
  }
  void unit_for(const Dimension& dimension, std::string_view text, std::string_view what) const {
    if (const auto found = unit(text, what); found && found->dimension != dimension)
      refuse(fmt::format("{}: {} does not go into '{}'", what, describe(dimension), text));
  }
  // Nothing where there is none.
  std::optional<Unit> unit(std::string_view text, std::string_view what) const {
    try {
      if (text.empty()) return std::nullopt;
      return parse_unit(text);
    } catch (const InputError&) {
      refuse(std::string(what) + " in '" + std::string(text) + "', which is no unit");
    }
  }
  void result(const ResultValue& value) const {
    const auto& known = calculation_.results;
    if (value.info == nullptr) refuse("a result without a name");
    if (std::find(known.begin(), known.end(), value.info) == known.end())
      refuse("a result '" + std::string(value.info->name) + "' that it does not declare");
    finite(value.number, value.info->name);
  }
  void change(const Changed& changed) const {
    const auto& known = calculation_.changes;
    if (changed.key == nullptr) refuse("a change of nothing");
    if (std::find(known.begin(), known.end(), changed.key) == known.end())
      refuse("a change of '" + std::string(changed.key->name) + "' that it does not declare");
    lot_value(*changed.key, changed.value);
  }
  void forgotten(const Input* key) const {
    const auto& known = calculation_.changes;
    if (key == nullptr) refuse("it forgets nothing");
    if (std::find(known.begin(), known.end(), key) == known.end())
      refuse("it forgets '" + std::string(key->name) + "', which it does not declare as changed");
  }
  void new_lot(const NewLot& lot) const {
    if (lot.name.empty()) refuse("a lot without a name");
    for (const auto& [name, value] : lot.analysis) {
      const auto key = std::find_if(lot::keys.begin(), lot::keys.end(),
                                    [&known = name](const Input* k) { return k->name == known; });
      if (key == lot::keys.end()) refuse("a lot with '" + name + "', which no lot has");
      lot_value(**key, value);
    }
  }
  void drawn(const Drawn& drawn) const {
    finite(drawn.volume.value(), "the volume taken from " + drawn.lot);
    if (drawn.volume < Volume{}) refuse("a negative volume taken from '" + drawn.lot + "'");
  }
  void table(const Table& table) const {
    for (const auto& column : table.columns) unit(column.unit, table.name);
    for (const auto& row : table.rows) {
      if (row.size() != table.columns.size()) refuse("a row of '" + table.name + "' that is not as wide as its head");
      for (const auto& cell : row)
        if (const double* number = std::get_if<double>(&cell)) finite(*number, table.name);
    }
  }
  void chart(const Chart& chart) const {
    unit(chart.x.unit, chart.name);
    unit(chart.y.unit, chart.name);
    if (chart.band) {
      finite(chart.band->first, chart.name);
      finite(chart.band->second, chart.name);
    }
    for (const auto& trace : chart.traces)
      for (const auto& [x, y] : trace.points) {
        finite(x, chart.name);
        finite(y, chart.name);
      }
  }
  void addition(const Addition& addition) const {
    if (addition.mass.has_value() == addition.volume.has_value())
      refuse("an addition of '" + addition.substance + "' with neither mass nor volume, or with both");
    const double amount = addition.mass ? addition.mass->value() : addition.volume->value();
    finite(amount, addition.substance);
    if (amount <= 0) refuse("an addition of '" + addition.substance + "' that is not above zero");
    figure(addition.dose, "a dose");
    if (!addition.part) return;
    finite(addition.part->value(), "the part that takes an addition");
    if (!(*addition.part > Volume{})) refuse("an addition to a part of the lot that is not above zero");
  }

  void reagent(const std::string& id) const {
    const auto& known = calculation_.reagents;
    if (std::find(known.begin(), known.end(), id) == known.end())
      refuse("a reagent '" + id + "' that it does not declare");
  }

 private:
  void lot_value(const Input& key, const Value& value) const {
    switch (key.kind) {
      case Kind::quantity:
        return finite(value.number, key.name);
      case Kind::choice:
        if (std::find(key.choices.begin(), key.choices.end(), value.word) == key.choices.end())
          refuse("it would make " + std::string(key.name) + " '" + value.word + "'");
        return;
      case Kind::series:
        for (const auto& [x, y] : value.series.points) {
          finite(x, key.name);
          finite(y, key.name);
        }
        return;
      case Kind::amounts:
        for (const auto& [name, amount] : value.amounts) {
          if (std::find(key.choices.begin(), key.choices.end(), name) == key.choices.end())
            refuse("an amount of '" + name + "', which '" + std::string(key.name) + "' does not know");
          finite(amount, key.name);
        }
        return;
      case Kind::shares:
        for (const auto& [name, share] : value.shares) {
          finite(share, key.name);
          if (share < 0 || share > 1 + 1e-9) refuse("a share of '" + name + "' that is no share");
        }
        return;
      default:
        refuse("a value of '" + std::string(key.name) + "', which no lot has");
    }
  }
  [[noreturn]] void refuse(const std::string& what) const {
    throw PluginError(id_ + " gave an answer that cannot be used: " + what + "; nothing is shown of it");
  }
  const Calculation& calculation_;
  const std::string& id_;
};

}  // namespace

void vet(const Outcome& outcome, const Calculation& calculation, const std::string& id) {
  const Vetting vetting(calculation, id);
  for (const auto& result : outcome.results) vetting.result(result);
  for (const auto& changed : outcome.changes) vetting.change(changed);
  for (const Input* key : outcome.forgotten) vetting.forgotten(key);
  for (const auto& lot : outcome.new_lots) vetting.new_lot(lot);
  for (const auto& drawn : outcome.drawn) vetting.drawn(drawn);
  for (const auto& table : outcome.tables) vetting.table(table);
  for (const auto& chart : outcome.charts) vetting.chart(chart);
  for (const auto& addition : outcome.additions) vetting.addition(addition);
  for (const auto& reagent : outcome.reagents) vetting.reagent(reagent);
  for (const auto& check : outcome.checks) {
    if (check.value) vetting.figure(*check.value, check.name);
    if (check.limit) vetting.figure(*check.limit, check.name);
  }
  for (const auto& opinion : outcome.opinions) {
    vetting.figure(opinion.here, opinion.name);
    vetting.figure(opinion.there, opinion.name);
  }
}

}  // namespace vatwright
