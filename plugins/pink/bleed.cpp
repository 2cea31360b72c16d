#include "plugins/pink/bleed.hpp"

#include "plugins/chemistry/must.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

#include <cmath>

namespace vatwright::pink::bleed {
namespace {

constexpr auto litre_of = [](Volume v) { return print(v, "L", 0); };
constexpr auto ratio_text = [](MassConcentration r) { return print(r, "kg/L", 3); };

// More than this part of the juice is no bleeding any more.
constexpr Fraction most_share = bleed_share.valid->high * percent;

void refuse_wrong_lot(const Inputs& in) {
  if (in.get(lot::stage) == "wine")
    throw InputError("juice is bled off a must, and this lot is a wine", "write 'stage: must' if it still ferments");
  if (in.get(lot::colour) == "white")
    throw InputError("juice is bled off a red tank, and this lot is white", "look at 'colour' and at the lot's name");
}

// The skins fill what the juice does not; a density that no skins have shows a slip.
void check_tank(const Inputs& in) {
  const Volume left = in[tank_volume] - in[lot::volume];
  if (!(left > Volume{}))
    throw InputError(fmt::format("the tank holds {}, no more than its juice, {}", litre_of(in[tank_volume]),
                                 litre_of(in[lot::volume])),
                     "'volume' of the lot is the juice alone; 'tank volume' counts the skins too");
  const Density density = in[skins] / left;
  constexpr Density light = 500.0 * kilogram_per_cubic_metre, heavy = 1500.0 * kilogram_per_cubic_metre;
  if (density < light || density > heavy)
    throw InputError(fmt::format("{} of skins and seeds would fill {}: {}", print(in[skins], "kg", 0), litre_of(left),
                                 ratio_text(density)),
                     "they weigh about as much as water; look at the two volumes and the mass");
}

Volume by_share(const Inputs& in) {
  if (!in.has(of))
    throw InputError("it is not said what the bleed share is a share of",
                     "write 'of: juice', or 'of: whole tank' with 'tank volume'; the two differ by a third or so");
  if (in[of] == of_juice) return in[bleed_share] * in[lot::volume];
  if (!in.has(tank_volume))
    throw InputError("a share of the whole tank needs the tank volume",
                     "'tank volume' is juice, skins and seeds together; 'volume' of the lot is the juice alone");
  return in[bleed_share] * in[tank_volume];
}

Volume by_ratio(const Inputs& in) {
  const MassConcentration now = in[skins] / in[lot::volume];
  if (!(in[target_ratio] > now))
    throw InputError(fmt::format("the tank has {} already; bleeding only raises it", ratio_text(now)),
                     "give a target above that, or bleed nothing");
  return in[lot::volume] - in[skins] / in[target_ratio];
}

Volume decide(const Inputs& in) {
  if (in.has(tank_volume)) check_tank(in);
  const Volume exact = in.has(bleed_share) ? by_share(in) : by_ratio(in);
  if (exact > most_share * in[lot::volume])
    throw InputError(
        fmt::format("{} would be drawn from {} of juice", litre_of(exact), litre_of(in[lot::volume])),
        fmt::format("at most {} of the juice is taken here; for more, press the tank", print(most_share, "%", 0)));
  return to_measure(exact);
}

NewLot pink_juice(const Inputs& in, Volume taken) {
  NewLot juice{.name = std::string(in[into]), .analysis = {}, .by = "draw"};
  for (const Input* key : lot::keys)
    if (const Value* value = in.find(*key)) juice.analysis[std::string(key->name)] = *value;
  juice.analysis.erase(std::string(lot::volume.name));
  juice.set(lot::volume, taken);
  juice.set(lot::colour, "pink");
  juice.set(lot::stage, "must");
  return juice;
}

void closing_check(const Inputs& in, MassConcentration reached, Outcome& out) {
  if (!in.has(target_ratio)) return;
  constexpr double coarse = 0.02;
  const bool fine = std::abs((reached / in[target_ratio]).value() - 1) <= coarse;
  out.checks.push_back({.name = "closing check: skin-to-juice ratio",
                        .holds = fine,
                        .value = figure(reached, ratio_after.unit, ratio_after.decimals),
                        .limit = figure(in[target_ratio], ratio_after.unit, ratio_after.decimals),
                        .relation = "equals",
                        .source = "juice and skins after the bleeding, the volume rounded",
                        .remedy = fine ? "" : "report this as a fault of the program"});
}

void write_notes(const Inputs& in, Fraction share, Fraction most, Outcome& out) {
  out.note(
      fmt::format("the red comes to between 1 and {:.2f} times its colour and phenolics, an estimate: what is in "
                  "the juice by now leaves with it, what is still in the skins is left to less juice",
                  most.value()));
  out.note(
      "the pink juice has the sugar, the acidity and the pH of fruit picked for red: riper than pink is picked for");
  if (in.get(lot::free_so2).value_or(MassConcentration{}) > MassConcentration{})
    out.note("sulfur dioxide bleaches the juice for now: its colour at bleeding reads too low");
  if (share > bleed_share.usual->high * percent)
    out.note(fmt::format("{} of the juice is more than is usual (common practice, no source): the red may turn harsh",
                         print(share, "%", 0)));
  out.note("bleed before fermentation begins, and measure the juice's own pH and sugar before you add to it");
}

}  // namespace

Outcome run(const Inputs& in) {
  Outcome out;
  refuse_wrong_lot(in);
  const auto held = in.decided(bled);
  const Volume taken = held ? *held : decide(in);
  const Volume left = in[lot::volume] - taken;
  const Fraction share = taken / in[lot::volume];
  const Fraction most = in[lot::volume] / left;

  out.result(bled, taken);
  out.result(share_of_juice, share);
  out.result<MassConcentration>(ratio_before, in[skins] / in[lot::volume]);
  out.result<MassConcentration>(ratio_after, in[skins] / left);
  out.result(most_concentrated, most);
  if (const auto e = in.get(extracted)) out.result<Fraction>(expected_concentration, (1.0 - *e * share) * most);
  if (const auto sugar = in.get(lot::sugar))
    out.result<Strength>(potential_alcohol,
                         chemistry::potential_alcohol(*sugar) / (1 + in[lab::sugar_to_alcohol].value()));
  out.change(lot::volume, left);
  out.new_lots.push_back(pink_juice(in, taken));
  out.reagents.emplace_back(lab::gas_of_fermentation);
  out.task(fmt::format("draw {} of juice off the skins, as lot {}", litre_of(taken), in[into]));
  if (!held) closing_check(in, in[skins] / left, out);
  if (!in.figures_only()) write_notes(in, share, most, out);
  return out;
}

}  // namespace vatwright::pink::bleed
