#include "host/bench/vet.hpp"

#include "host/bench/plausible.hpp"
#include "host/files/printable.hpp"
#include "host/loader/plugin_file.hpp"
#include "host/plugin/lot.hpp"
#include "host/recipe/recipe.hpp"
#include "host/substances/strong.hpp"
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
    finite(value.own_standard, value.info->name);
    if (value.own_standard < 0) refuse("a negative ± of '" + std::string(value.info->name) + "'");
  }
  void change(const Changed& changed) const {
    const auto& known = calculation_.changes;
    if (changed.key == nullptr) refuse("a change of nothing");
    if (std::find(known.begin(), known.end(), changed.key) == known.end())
      refuse("a change of '" + std::string(changed.key->name) + "' that it does not declare");
    // The lot's own key: a plugin may have one of the same name.
    lot_value(of_lots(*changed.key), changed.value);
  }
  // `does`: "forgets".
  void of_changed(const Input* key, const std::string& does) const {
    const auto& known = calculation_.changes;
    if (key == nullptr) refuse("it " + does + " nothing");
    if (std::find(known.begin(), known.end(), key) == known.end())
      refuse("it " + does + " '" + std::string(key->name) + "', which it does not declare as changed");
    of_lots(*key);
  }
  void new_lot(const NewLot& lot) const {
    if (lot.name.empty()) refuse("a lot without a name");
    name(lot.name, "a lot");
    for (const auto& [key, value] : lot.analysis) {
      const Input* known = find_lot_key(key);
      if (known == nullptr) refuse("a lot with '" + key + "', which no lot has");
      lot_value(*known, value);
    }
  }
  // `what` is a kind of thing: "a check".
  void name(std::string_view text, std::string_view what) const {
    if (!is_printable(text)) refuse(std::string(what) + " with a control character in its name");
  }
  void words(std::string_view text, std::string_view what) const {
    if (!is_printable(text, true)) refuse(std::string(what) + " with a control character in its words");
  }
  // A text shows both, JSON one.
  template <class List, class Name>
  void once(const List& list, std::string_view what, Name name_of) const {
    for (auto one = list.begin(); one != list.end(); ++one)
      if (std::any_of(list.begin(), one, [&](const auto& before) { return name_of(before) == name_of(*one); }))
        refuse(fmt::format("two {} of one name, '{}'", what, name_of(*one)));
  }
  void drawn(const Drawn& drawn) const {
    finite(drawn.volume.value(), "the volume taken from " + drawn.lot);
    if (drawn.volume < Volume{}) refuse("a negative volume taken from '" + drawn.lot + "'");
  }
  void poured(const Poured& poured) const {
    finite(poured.thinner().value(), "what is poured in");
    if (!(poured.before > Volume{}) || !(poured.after > Volume{})) refuse("something is poured into no wine");
    if (poured.mass) finite(poured.mass->value(), "the mass that is poured in");
  }
  void table(const Table& table) const {
    words(table.name, "a table");
    for (const auto& column : table.columns) {
      words(column.name, "a table");
      unit(column.unit, table.name);
    }
    for (const auto& row : table.rows) {
      if (row.size() != table.columns.size()) refuse("a row of '" + table.name + "' that is not as wide as its head");
      for (const auto& cell : row)
        if (const double* number = std::get_if<double>(&cell))
          finite(*number, table.name);
        else if (const auto* text = std::get_if<std::string>(&cell))
          words(*text, "a table");
    }
  }
  void chart(const Chart& chart) const {
    words(chart.name, "a chart");
    unit(chart.x.unit, chart.name);
    unit(chart.y.unit, chart.name);
    if (chart.band) {
      finite(chart.band->first, chart.name);
      finite(chart.band->second, chart.name);
    }
    for (const auto& trace : chart.traces) {
      words(trace.name, "a chart");
      for (const auto& [x, y] : trace.points) {
        finite(x, chart.name);
        finite(y, chart.name);
      }
    }
  }
  void addition(const Addition& addition, const std::vector<Volume>& volumes) const {
    name(addition.substance, "an addition");
    name(addition.strength, "an addition");
    words(addition.when, "an addition");
    if (addition.mass.has_value() == addition.volume.has_value())
      refuse("an addition of '" + addition.substance + "' with neither mass nor volume, or with both");
    const double amount = addition.mass ? addition.mass->value() : addition.volume->value();
    finite(amount, addition.substance);
    if (amount <= 0) refuse("an addition of '" + addition.substance + "' that is not above zero");
    figure(addition.dose, "a dose");
    if (addition.part) {
      finite(addition.part->value(), "the part that takes an addition");
      if (!(*addition.part > Volume{})) refuse("an addition to a part of the lot that is not above zero");
    }
    if (const auto fault = fault_in(addition, volumes); !fault.empty()) refuse(fault);
  }
  void check(const Check& check) const {
    words(check.name, "a check");
    words(check.source, "a check");
    words(check.remedy, "a check");
    if (check.value) figure(*check.value, check.name);
    if (check.limit) figure(*check.limit, check.name);
    if (const auto fault = fault_in(check); !fault.empty()) refuse(fault);
  }
  void opinion(const SecondOpinion& opinion) const {
    words(opinion.name, "a second opinion");
    figure(opinion.here, opinion.name);
    figure(opinion.there, opinion.name);
    if (opinion.here.dimension != opinion.there.dimension)
      refuse(fmt::format("'{}' compares {} with {}", opinion.name, describe(opinion.here.dimension),
                         describe(opinion.there.dimension)));
  }

  void reagent(const std::string& handled) const {
    const auto& known = calculation_.reagents;
    const auto [id, strength] = apart_from_strength(handled);
    words(strength, "a reagent");
    if (std::find(known.begin(), known.end(), id) == known.end())
      refuse("a reagent '" + handled + "' that it does not declare");
  }

 private:
  const Input& of_lots(const Input& key) const {
    const Input* known = find_lot_key(key.name);
    if (known == nullptr) refuse("a change of '" + std::string(key.name) + "', which no lot has");
    return *known;
  }
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

// What may take an addition: the lot before the step and after it.
std::vector<Volume> volumes_of(const Outcome& outcome, std::optional<Volume> before) {
  std::vector<Volume> volumes;
  if (before) volumes.push_back(*before);
  for (const auto& changed : outcome.changes)
    if (changed.key->name == lot::volume.name) volumes.push_back(Volume::from_value(changed.value.number));
  for (const auto& lot : outcome.new_lots)
    if (const auto at = lot.analysis.find(lot::volume.name); at != lot.analysis.end())
      volumes.push_back(Volume::from_value(at->second.number));
  return volumes;
}

}  // namespace

void vet(const Outcome& outcome, const Calculation& calculation, const std::string& id, std::optional<Volume> volume) {
  const Vetting vetting(calculation, id);
  for (const auto& result : outcome.results) vetting.result(result);
  for (const auto& changed : outcome.changes) vetting.change(changed);
  for (const Input* key : outcome.forgotten) vetting.of_changed(key, "forgets");
  for (const Input* key : outcome.carried) vetting.of_changed(key, "carries over");
  for (const auto& lot : outcome.new_lots) vetting.new_lot(lot);
  for (const auto& drawn : outcome.drawn) vetting.drawn(drawn);
  if (outcome.poured) vetting.poured(*outcome.poured);
  for (const auto& table : outcome.tables) vetting.table(table);
  for (const auto& chart : outcome.charts) vetting.chart(chart);
  const auto volumes = volumes_of(outcome, volume);
  for (const auto& addition : outcome.additions) vetting.addition(addition, volumes);
  for (const auto& reagent : outcome.reagents) vetting.reagent(reagent);
  for (const auto& check : outcome.checks) vetting.check(check);
  for (const auto& opinion : outcome.opinions) vetting.opinion(opinion);
  for (const auto& note : outcome.notes) vetting.words(note, "a note");
  for (const auto& task : outcome.work) vetting.words(task, "a task");
  const auto own_name = [](const auto& one) -> std::string_view { return one.name; };
  vetting.once(outcome.results, "results", [](const ResultValue& value) { return value.info->name; });
  // At least and at most of one figure are two checks.
  vetting.once(outcome.checks, "checks", [](const Check& check) {
    return check.relation.empty() ? check.name : fmt::format("{}, {}", check.name, check.relation);
  });
  vetting.once(outcome.opinions, "second opinions", own_name);
}

}  // namespace vatwright
