#include "plugins/blend/mix.hpp"

#include "plugins/blend/checks.hpp"
#include "plugins/blend/portions.hpp"
#include "plugins/lab/analysis.hpp"
#include "units/parse.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace vatwright::blend::mix {
namespace {

// What the person says of the blend overrules what its lots have in common.
void name_it(const Inputs& in, std::span<const Portion> portions, Prediction& blend) {
  const auto say = [&](const Choice& key) {
    if (!in.has(key)) return;
    blend.lot.set(key, in[key]);
    std::erase_if(blend.unknown, [&](const auto& u) { return u.what == key.name; });
  };
  const auto shares = shares_of("colour", blend.lot, portions);
  if (in.has(lot::colour) && shares && shares->size() == 1 && shares->front().first != in[lot::colour])
    throw InputError(fmt::format("all lots are {}: the blend is not {}", shares->front().first, in[lot::colour]),
                     "leave 'colour' out, or correct the lots");
  say(lot::colour);
  say(lot::wine_class);
}

template <class Quantity>
void pass_on(const NewLot& blend, const Key<Quantity>& key, const Result<Quantity>& result, Outcome& out) {
  if (const auto at = blend.analysis.find(key.name); at != blend.analysis.end())
    out.result(result, Quantity::from_value(at->second.number));
}

void write_results(const Prediction& blend, bool drawn, Outcome& out) {
  if (drawn) {
    out.result(volume, blend.mixed.volume);
    if (blend.mixed.contraction) out.result(contraction, *blend.mixed.contraction);
  }
  pass_on(blend.lot, lot::ethanol, ethanol, out);
  pass_on(blend.lot, lot::ph, ph, out);
  pass_on(blend.lot, lot::titratable_acidity, titratable_acidity, out);
  pass_on(blend.lot, lot::sugar, sugar, out);
  pass_on(blend.lot, lot::free_so2, free_so2, out);
  pass_on(blend.lot, lot::total_so2, total_so2, out);
}

// --- beside the answer

int decimals_of(const Input& key) {
  if (key.unit == "pH" || key.unit == "% vol" || key.unit.starts_with("g/L")) return 2;
  return 1;
}

template <class Quantity>
double mean_by_volume(const Key<Quantity>& key, std::span<const Portion> portions) {
  double sum = 0, volumes = 0;
  for (const auto& portion : portions) {
    sum += portion.volume.value() * portion.lot->find(key)->number;
    volumes += portion.volume.value();
  }
  return sum / volumes;
}

// `matters_from`, in the key's unit, is what would change the work.
template <class Quantity>
void compare_mean(const NewLot& blend, const Key<Quantity>& key, Quantity matters_from,
                  std::span<const Portion> portions, Outcome& out) {
  const auto at = blend.analysis.find(key.name);
  if (at == blend.analysis.end()) return;
  const double here = at->second.number, there = mean_by_volume(key, portions);
  out.opinions.push_back({.name = fmt::format("{} as the mean by volume", key.name),
                          .here = {key.unit, decimals_of(key), here, key.dimension},
                          .there = {key.unit, decimals_of(key), there, key.dimension},
                          .matters = std::abs(here - there) >= matters_from.value(),
                          .source = "common practice, no source"});
}

bool taken_for_pink(const Inputs& in, std::span<const Portion> portions, const NewLot& blend) {
  return !in.has(lot::colour) && blend.analysis.contains(lot::colour.name) &&
         std::any_of(portions.begin(), portions.end(), [&](const Portion& p) {
           return p.lot->get(lot::colour) != blend.analysis.at(std::string(lot::colour.name)).word;
         });
}

Cell cell(const Input& key, const Value* value) {
  if (value == nullptr) return {};
  return print_number(parse_unit(key.unit).number(value->number), decimals_of(key));
}

// Lots side by side, and what they become. Each line has a unit of its own.
void show_table(std::span<const Portion> portions, const NewLot& blend, Outcome& out) {
  Table table{.name = "the lots and the blend", .columns = {{"", {}, 1}, {"unit", {}, 1}}, .rows = {}};
  for (const auto& portion : portions) table.columns.push_back({portion.lot->name, {}, 1});
  table.columns.push_back({blend.name, {}, 1});
  for (const Input* key : lot::keys) {
    if (key->kind != Kind::quantity || key == &lot::volume) continue;
    if (std::none_of(portions.begin(), portions.end(), [&](const auto& p) { return p.lot->has(*key); })) continue;
    std::vector<Cell> row{std::string(key->name), std::string(key->unit)};
    for (const auto& portion : portions) row.push_back(cell(*key, portion.lot->find(*key)));
    const auto at = blend.analysis.find(key->name);
    row.push_back(cell(*key, at == blend.analysis.end() ? nullptr : &at->second));
    table.rows.push_back(std::move(row));
  }
  if (!table.rows.empty()) out.tables.push_back(std::move(table));
}

void write_notes(const Inputs& in, std::span<const Portion> portions, const Prediction& blend, bool drawn,
                 Outcome& out) {
  for (const auto& [what, why] : blend.unknown) out.note(fmt::format("{} of the blend is unknown: {}", what, why));
  for (const auto& portion : portions) {
    if (!blend.mixed.ph) break;
    const auto part = part_of(*portion.lot, portion.volume);
    lab::note_scaling(chemistry::infer(*part.acids, chemistry::medium_of(part)), " of " + portion.lot->name, out);
    if (!portion.lot->has(lot::ethanol))
      out.note(fmt::format("ethanol of {} was not given: for its acids it is taken as {}", portion.lot->name,
                           print(part.taken_ethanol, "% vol", 0)));
  }
  if (blend.lot.analysis.contains(lot::titratable_acidity.name))
    for (const auto& portion : portions)
      if (!portion.lot->has(lot::endpoint))
        out.note(fmt::format("the end point of {} was not given: its titratable acidity is taken as to pH {}",
                             portion.lot->name, endpoint_of(*portion.lot)));
  if (taken_for_pink(in, portions, blend.lot))
    out.note(
        "the lots are white and pink: the blend is taken for pink, and held to the stricter figure of the two; "
        "write 'colour: white' where it stays white");
  if (!drawn) out.note("shares without a volume: a prediction, and no wine is drawn from the lots");
  out.note("volumes and shares are taken as at 20 °C: blend.volume corrects a tank that is colder or warmer");
  if (blend.lot.analysis.contains(lot::free_so2.name))
    out.note("some free SO2 is bound anew after joining: measure free and total SO2 again after 24 to 48 h");
  if (blend.lot.analysis.contains(lot::absorbance.name))
    out.note("colour shifts with pH, SO2 and dilution beyond what adds up: look at a bench blend first");
  out.note(
      "a blend is not as stable as its lots: test it for tartrate and protein; what falls out moves pH and acidity");
}

}  // namespace

Outcome run(const Inputs& in) {
  Outcome out;
  const auto& asked = in[lots];
  const auto portions = portions_of(asked, in.get(lot::volume), !in.figures_only());
  refuse_two_spellings(portions.list);
  auto blend =
      predict(in[into], portions.list, in.figures_only(), std::clamp(in[lab::unmeasured_acids].value(), -1.0, 1.0));
  name_it(in, portions.list, blend);
  if (!portions.drawn) blend.lot.analysis.erase(std::string(lot::volume.name));
  write_results(blend, portions.drawn, out);
  check_analysis(in, blend.lot, portions.list, out);
  check_composition(in, blend.lot, portions.list, out);
  check_label(in, blend.lot, out);
  if (!in.figures_only()) {
    compare_mean(blend.lot, lot::ph, 0.05 * ph_unit, portions.list, out);
    compare_mean(blend.lot, lot::ethanol, 0.05 * percent_vol, portions.list, out);
    show_table(portions.list, blend.lot, out);
    write_notes(in, portions.list, blend, portions.drawn, out);
  }
  if (portions.drawn) {
    for (const auto& portion : portions.list) out.drawn.push_back({portion.lot->name, portion.volume});
    out.task(pump(portions.list, fmt::format("lot {}", in[into])));
  }
  blend.lot.by = "join";
  out.new_lots.push_back(std::move(blend.lot));
  return out;
}

}  // namespace vatwright::blend::mix
