#include "host/bench/lots.hpp"

#include "host/facts/account.hpp"
#include "host/facts/follow.hpp"
#include "host/loader/plugin_file.hpp"
#include "host/plugin/lot.hpp"
#include "host/recipe/allowed.hpp"
#include "units/parse.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace vatwright {
namespace {

// What a step did to the lots. Throws PluginError where it cannot have, BadInput where a lot
// cannot be what it would become.
class LotBook {
 public:
  LotBook(const Recipe& recipe, std::vector<LotState>& lots, const BoundStep& step, std::size_t number, Run run,
          std::vector<Left>* leaves)
      : recipe_(recipe), lots_(lots), step_(step), number_(number), run_(run), leaves_(leaves) {}

  void enter(const Outcome& outcome) {
    for (const auto& changed : outcome.changes) change(own(), *changed.key, with_silence(own(), changed));
    for (const Input* key : outcome.carried) carry_over(own(), *key);
    for (const Input* key : outcome.forgotten) forget(own(), *key);
    for (const auto& drawn : outcome.drawn) draw(drawn);
    for (const auto& made : outcome.new_lots) make(made);
  }

 private:
  [[noreturn]] void refuse(const std::string& what) const {
    throw PluginError(step_.spec->calculation + " gave an answer that cannot be used: " + what +
                      "; nothing is shown of it");
  }

  // Figures of a laboratory are foretold, or reckoned from what it read; words and books are known.
  Origin origin_of(const Input& key) const {
    const bool figure = key.kind == Kind::quantity || key.kind == Kind::series;
    if (!figure || key.behaves.kept == Kept::book) return {Origin::Of::booked, number_};
    return {step_.calculation->measures ? Origin::Of::reckoned : Origin::Of::forecast, number_};
  }

  void forget(LotState& lot, const Input& key) {
    if (lot.analysis.erase(std::string(key.name)) == 0 || leaves_ == nullptr) return;
    if (const Input* known = find_lot_key(key.name)) leaves_->push_back({lot.name, known, std::nullopt, {}});
  }

  void carry_over(LotState& lot, const Input& key) {
    const auto known = lot.analysis.find(key.name);
    if (known != lot.analysis.end())
      put(lot, *find_lot_key(key.name), Value(known->second), {Origin::Of::forecast, number_});
  }

  void put(LotState& lot, const Input& key, Value value) { put(lot, key, std::move(value), origin_of(key)); }
  void put(LotState& lot, const Input& key, Value value, const Origin& origin) {
    if (leaves_ != nullptr) leaves_->push_back({lot.name, &key, value, origin.of});
    set(lot.analysis, key, std::move(value));
    set(lot.from, key, origin);
  }

  // Mostly it is there already, and needs no name of its own.
  template <class Map, class What>
  static void set(Map& map, const Input& key, What what) {
    if (const auto at = map.find(key.name); at != map.end())
      at->second = std::move(what);
    else
      map.emplace(key.name, std::move(what));
  }

  // The calculation is sound and was asked for too much, or the readings are not those of one wine.
  void refuse_impossible(const LotState& lot, const Input& key, double coherent) const {
    if (can_be(key, coherent)) return;
    const std::string figure = print_significant(parse_unit(key.unit).number(coherent), 4);
    recipe_.document.fail(
        step_.spec->mark,
        fmt::format("{}: {} of lot '{}' would come to {}, which is outside what can be: {}", step_.spec->calculation,
                    key.name, lot.name, with_unit(figure, key.unit), range_of(key)),
        "ask for less, and look at the readings");
  }

  // A step that leaves a figure where it is foretells nothing.
  static bool is_as_it_was(const LotState& lot, const Input& key, const Value& value) {
    return facts::is_as_it_was(lot.analysis, key, value) && value.silent == lot.analysis.find(key.name)->second.silent;
  }

  // In the range of the lot's own key, whatever the plugin's says.
  void change(LotState& lot, const Input& plugins_key, Value value) {
    const Input* known = find_lot_key(plugins_key.name);
    if (known == nullptr) refuse("a change of '" + std::string(plugins_key.name) + "', which no lot has");
    const Input& key = *known;
    if (key.kind == Kind::quantity) refuse_impossible(lot, key, value.number);
    for (const auto& [x, y] : value.series.points) refuse_impossible(lot, key, y);
    for (const auto& [name, amount] : value.amounts) refuse_impossible(lot, key, amount);
    if (is_as_it_was(lot, key, value)) return;
    put(lot, key, std::move(value));
  }

  // What a step enters into an account that nobody stated does not state it.
  static Value with_silence(const LotState& lot, const Changed& changed) {
    Value value = changed.value;
    if (changed.key->behaves.account == Account::none) return value;
    const auto before = lot.analysis.find(changed.key->name);
    if (before == lot.analysis.end())
      facts::add_silent({lot.name}, value.silent);
    else
      facts::add_silent(before->second.silent, value.silent);
    return value;
  }

  LotState& own() {
    if (!step_.lot) refuse("it changes a lot and is on none");
    return lots_[*step_.lot];
  }

  void draw(const Drawn& drawn) {
    const auto lot =
        std::find_if(lots_.begin(), lots_.end(), [&](const auto& l) { return l.there && l.name == drawn.lot; });
    if (lot == lots_.end()) refuse("wine from a lot '" + drawn.lot + "' that there is not");
    const auto at = lot->analysis.find(lot::volume.name);
    if (at == lot->analysis.end()) refuse("wine from lot '" + drawn.lot + "', whose volume is not known");
    constexpr double slack = 1e-9;
    const double left = at->second.number - drawn.volume.value();
    // A volume that is known to ± 2 % may be drawn below what is taken: then all of it is.
    if (left < -slack * at->second.number && run_ == Run::on_sheet)
      refuse("more wine than there is in lot '" + drawn.lot + "'");
    Value value;
    value.number = left > slack * at->second.number ? left : 0;
    put(*lot, lot::volume, std::move(value));
  }

  void make(const NewLot& made) {
    const auto own =
        std::find_if(step_.makes.begin(), step_.makes.end(), [&](std::size_t i) { return lots_[i].name == made.name; });
    if (own == step_.makes.end()) refuse("a lot '" + made.name + "' that it does not declare");
    LotState& lot = lots_[*own];
    lot.there = true;
    lot.made = words({Origin::Of::booked, number_});
    for (const auto& [key, value] : made.analysis) change(lot, *find_lot_key(key), value);
  }

  const Recipe& recipe_;
  std::vector<LotState>& lots_;
  const BoundStep& step_;
  std::size_t number_;
  Run run_;
  std::vector<Left>* leaves_;
};

}  // namespace

std::vector<LotState> lots_of(const Recipe& recipe, const std::vector<BoundStep>& steps) {
  std::vector<LotState> lots;
  for (const auto& spec : recipe.lots) {
    auto& lot = lots.emplace_back();
    lot.name = spec.name;
    lot.went_in = spec.went_in;
    lot.foretold = spec.foretold;
    lot.as_of = spec.as_of;
    for (const auto& [key, value] : spec.analysis) lot.analysis.emplace(key->name, value);
  }
  for (const auto& step : steps)
    for (const auto& need : step.calculation->inputs)
      if (need.input->kind == Kind::new_lot)
        if (const Value* name = said(step, *need.input)) {
          lots.emplace_back().name = name->word;
          lots.back().there = false;
        }
  return lots;
}

void enter(const Outcome& outcome, const BoundStep& step, std::size_t number, const Recipe& recipe,
           std::vector<LotState>& lots, Run run, std::vector<Left>* leaves) {
  LotBook(recipe, lots, step, number, run, leaves).enter(outcome);
}

void refuse_absent(const Recipe& recipe, const BoundStep& step, const std::vector<LotState>& lots) {
  const auto look = [&](const LotState& lot) {
    if (!lot.there)
      recipe.document.fail(step.spec->mark, "lot '" + lot.name + "' was not made by the step that was to make it",
                           "read the checks of that step");
    const auto at = lot.analysis.find(lot::volume.name);
    if (at != lot.analysis.end() && !(at->second.number > 0))
      recipe.document.fail(step.spec->mark, "lot '" + lot.name + "' is empty at this step",
                           "the steps before it have taken all of its wine");
  };
  if (step.lot) look(lots[*step.lot]);
  for (const auto& [input, value] : step.given)
    if (input->kind == Kind::lots)
      for (const auto& row : value.rows)
        for (const auto& lot : lots)
          if (lot.name == row.name) look(lot);
}

}  // namespace vatwright
