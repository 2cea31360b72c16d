#include "plugins/pink/press.hpp"

#include "plugins/pink/press_cut.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <optional>

namespace vatwright::pink::press {
namespace {

struct Part {
  std::string_view name;
  Fraction lees_share;
  const NewLotKey* into;
  Volume juice;

  bool empty() const { return !(juice > Volume{}); }
  Volume lees() const { return juice * lees_share; }
  Volume clear() const { return juice - lees(); }
};
using Parts = std::array<Part, 3>;

Parts read(const Inputs& in) {
  const auto part = [&](const Key<JuiceYield>& of, const Key<Fraction>& lees, const NewLotKey& into) {
    return Part{of.name, in[lees], &into, in[of] * in[fruit] * (1 + in[press_yields].value())};
  };
  return {part(free_run, lees_of_free_run, free_run_into), part(light_press, lees_of_light_press, light_press_into),
          part(heavy_press, lees_of_heavy_press, heavy_press_into)};
}

constexpr std::size_t free_of_pressure = 0, light = 1;  // and heavy press, which is the last

// Where the readings part the juice. The fraction that holds the cut ends there, and the rest of it goes
// to the next one. Past the end of the light press there is none to end: the light press runs on.
struct Cut {
  Volume after;
  std::size_t ended;  // the fraction that ends at the cut
  Volume planned;     // juice that has run off at its end, by the yields
};

Cut place(Volume after, const Parts& parts) {
  const Volume free_run_end = parts[free_of_pressure].juice;
  if (after < free_run_end) return {after, free_of_pressure, free_run_end};
  return {after, light, free_run_end + parts[light].juice};
}

void part_at(const Cut& cut, Parts& parts) {
  const Volume moved = cut.after - cut.planned;  // below none: to the next one
  parts[cut.ended].juice += moved;
  parts[cut.ended + 1].juice -= moved;
}

template <class Of>
Volume sum(const Parts& parts, Of of) {
  Volume total{};
  for (const auto& part : parts) total += of(part);
  return total;
}

// As the step says, else as it was measured of the lot.
Density density_of(const Inputs& in) {
  if (const auto said = in.get(juice_density)) return *said;
  return in.get(lot::density).value_or(usual_juice_density);
}

// Juice that weighs as much as its fruit leaves no skins.
void check_weight(const Inputs& in, Volume juice) {
  if (!(juice > Volume{})) throw InputError("the yields make no juice at all", "write them in L/t, such as 430 L/t");
  constexpr Fraction least_pomace = 5.0 * percent;
  const Mass left = in[fruit] - juice * density_of(in);
  if (left < least_pomace * in[fruit])
    throw InputError(fmt::format("{} of juice weigh {}, of {} of fruit", print(juice, "L", 0),
                                 print(juice * density_of(in), "kg", 0), print(in[fruit], "kg", 0)),
                     "skins, seeds and stems weigh a part of it: the yields are litres from a tonne of fruit");
}

Table table_of(const Inputs& in, const Parts& parts, Volume juice) {
  Table table{.name = "press fractions",
              .columns = {{"fraction"},
                          {"yield", "L/t", 0},
                          {"juice", "L", 0},
                          {"of the juice", "%", 1},
                          {"lees", "L", 0},
                          {"clear", "L", 0}},
              .rows = {}};
  for (const auto& part : parts)
    table.rows.push_back({std::string(part.name), (part.juice / in[fruit]).value(), part.juice.value(),
                          (part.juice / juice).value(), part.lees().value(), part.clear().value()});
  return table;
}

std::string litres_per_tonne(JuiceYield y) { return print(y, "L/t", 0); }

void note_usual(const Inputs& in, const Parts& parts, Volume juice, Outcome& out) {
  const JuiceYield whole = juice / in[fruit];
  if (whole < least_usual_yield || whole > most_usual_yield)
    out.note(fmt::format("{} in all is outside {:.0f} to {}, which is in print for crushed fruit ({}, {})",
                         litres_per_tonne(whole), (least_usual_yield / litre_per_tonne).value(),
                         litres_per_tonne(most_usual_yield), yields_in_print.title, yields_in_print.standing));
  const Fraction share = parts[0].juice / juice;
  if (share < least_usual_free_run || share > most_usual_free_run)
    out.note(
        fmt::format("free run is {} of the juice; with whole fruit {} to {} runs off while the press is filled ({})",
                    print(share, "%", 0), print_number(100 * least_usual_free_run.value(), 0),
                    print(most_usual_free_run, "%", 0), filling.title));
  out.note("lees and later losses are for planning (common practice, no source): measure them and put your own in");
}

std::string litres(Volume volume) { return print(volume, "L", 0); }

// Each fraction into its own tank, in the order in which it runs.
void give_tasks(const Inputs& in, const Parts& parts, Outcome& out) {
  std::string text;
  Volume run{};
  for (const auto& part : parts) {
    if (part.empty()) continue;
    const bool first = !(run > Volume{});
    run = run + part.juice;
    text += fmt::format(
        "{} {} into {}", first ? "run the first" : ", what follows up to", litres(run),
        in.has(*part.into) ? fmt::format("lot {}", in[*part.into]) : fmt::format("a tank of its own ({})", part.name));
  }
  out.task(text);
}

void tell_cut(const Parts& parts, const Cut& cut, Volume juice, Outcome& out) {
  const Part& ended = parts[cut.ended];
  if (cut.after >= juice)
    return out.note(
        fmt::format("the readings part the juice after {}, and by the yields there are only {}: the "
                    "fractions stay as the yields have them; correct the yields",
                    litres(cut.after), litres(juice)));
  out.note(
      fmt::format("the readings part the juice after {}, the yields end the {} after {}: the readings hold, and the "
                  "fractions are parted there; what comes later is higher in pH, potassium, phenolics and colour",
                  litres(cut.after), ended.name, litres(cut.planned)));
}

void make_lots(const Inputs& in, const Parts& parts, Outcome& out) {
  for (const auto& part : parts) {
    if (!in.has(*part.into)) continue;
    if (part.empty())
      throw InputError(
          fmt::format("'{}' is given, but no {} is", part.into->name, part.name),
          fmt::format("give its yield, such as '{}: 60 L/t', or leave '{}' out", part.name, part.into->name));
    NewLot& lot = out.new_lots.emplace_back();
    lot.name = std::string(in[*part.into]);
    lot.by = "press";
    for (const Input* key : handed_on)
      if (const Value* value = in.find(*key)) lot.analysis[std::string(key->name)] = *value;
    lot.set(lot::volume, part.juice);
    lot.set(lot::colour, in.get(lot::colour) == "white" ? "white" : "pink");
    lot.set(lot::stage, "must");
  }
}

}  // namespace

Outcome run(const Inputs& in) {
  Outcome out;
  const Parts planned = read(in);
  const Volume juice = sum(planned, [](const Part& p) { return p.juice; });
  check_weight(in, juice);
  const auto cut = find_cut(in, out);
  Parts parts = planned;
  if (cut && *cut < juice) part_at(place(*cut, planned), parts);
  const Volume clear = sum(parts, [](const Part& p) { return p.clear(); });

  out.result(free_run_juice, parts[0].juice);
  out.result(light_press_juice, parts[1].juice);
  out.result(heavy_press_juice, parts[2].juice);
  out.result(all_juice, juice);
  out.result<JuiceYield>(yield, juice / in[fruit]);
  out.result<Volume>(deposit, juice - clear);
  out.result(clear_juice, clear);
  out.result<Volume>(wine, clear * (1.0 - in[later_losses]));
  out.result<Mass>(pomace, in[fruit] - juice * density_of(in));
  if (cut) out.result(cut_after, *cut);
  make_lots(in, parts, out);
  out.reagents.emplace_back(lab::gas_of_fermentation);
  if (in.figures_only()) return out;
  if (!in.has(juice_density) && !in.has(lot::density))
    out.note(fmt::format("the juice is taken to weigh {} (common practice, no source): measure it",
                         print(usual_juice_density, "kg/m³", 0)));
  note_usual(in, planned, juice, out);
  give_tasks(in, parts, out);
  if (cut) tell_cut(parts, place(*cut, planned), juice, out);
  out.tables.push_back(table_of(in, parts, juice));
  return out;
}

}  // namespace vatwright::pink::press
