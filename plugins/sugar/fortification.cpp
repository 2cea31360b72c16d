#include "plugins/sugar/fortification.hpp"

#include "plugins/chemistry/alcoholometry.hpp"
#include "plugins/sugar/closing.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

#include <cmath>

namespace vatwright::sugar::fortification {
namespace {

constexpr Strength worth_telling = 0.05 * percent_vol;

struct Question {
  Volume volume;
  Strength now, spirit, wanted;

  bool enough() const { return wanted <= now; }
};

void refuse_weak_spirit(const Question& q) {
  if (q.spirit <= q.wanted)
    throw InputError("a spirit of " + print(q.spirit.value(), "% vol", 2) + " cannot bring the wine to " +
                         print(q.wanted.value(), "% vol", 2),
                     "take a stronger spirit, or lower the target");
}

// The mass of ethanol and of the rest add up: V1 rho1 (p2 - p1) = Vs rhos (ps - p2).
Volume spirit_for(const Question& q) {
  if (q.enough()) return {};
  refuse_weak_spirit(q);
  const auto wine = chemistry::ethanol_water(q.volume, q.now);
  const MassFraction aim = chemistry::ethanol_by_mass(q.wanted);
  const MassFraction strong = chemistry::ethanol_by_mass(q.spirit);
  const Mass added = wine.mass * (aim - wine.ethanol) / (strong - aim);
  return added / chemistry::ethanol_water_density(strong, chemistry::strength_temperature);
}

Volume crossed(const Question& q) {
  return q.enough() ? Volume{} : Volume(q.volume * (q.wanted - q.now) / (q.spirit - q.wanted));
}

chemistry::Mixed mixed(const Question& q, Volume added) {
  return chemistry::mix(chemistry::ethanol_water(q.volume, q.now), chemistry::ethanol_water(added, q.spirit));
}

void change_lot(const Inputs& in, const Question& q, Volume added, const chemistry::Mixed& then, Outcome& out) {
  const Strength reached = chemistry::strength_of(then.liquid.ethanol);
  out.change(lot::volume, then.volume);
  out.change(lot::ethanol, reached);
  out.poured = Poured{q.volume, then.volume, chemistry::ethanol_water(added, q.spirit).mass};
  // Alcohol moves the acids' constants: what cannot be reckoned is not known.
  if (const auto ph = lab::thinned_ph(in, *out.poured, reached))
    out.change(lot::ph, *ph);
  else
    out.forget(lot::ph);
  out.forget(lot::soluble_solids);  // a refractometer does not read sugar beside alcohol
}

void compare(const Question& q, Volume added, Outcome& out) {
  const Volume simple = crossed(q);
  const Strength reached = chemistry::strength_of(mixed(q, simple).liquid.ethanol);
  out.opinions.push_back({.name = "spirit by cross-mixing, volumes as if they added up",
                          .here = figure(added, "L", 2),
                          .there = figure(simple, "L", 2),
                          .matters = reached > q.wanted + worth_telling,
                          .source = "common practice, no source"});
  const Volume more = simple - added;
  out.note(fmt::format("cross-mixing takes {} {} and makes {}", print(std::abs(more.value()), "L", 2),
                       more < Volume{} ? "less" : "more", print(reached.value(), "% vol", 2)));
}

void say(Outcome& out) {
  out.note(
      "all volumes and strengths are those at 20 °C; wine is taken to shrink as ethanol and water of its strength do");
  out.note(
      "only for a wine whose category allows it, such as liqueur wine, under excise and with a spirit that the "
      "law of the place admits: check before you pour");
  out.note("spirit stops the yeast; measure alcoholic strength, volume, sugar and free SO2 again after a day");
  out.note("alcohol shifts pH and colour: pH goes by the acid model, colour is only thinned; measure both again");
}

}  // namespace

Outcome run(const Inputs& in) {
  const Question q{in[lot::volume], in[lot::ethanol], in[spirit], in[target]};
  const auto held = in.decided(spirit_volume);
  const Volume added = held ? *held : to_measure(spirit_for(q));
  const auto then = mixed(q, added);
  const Strength got = chemistry::strength_of(then.liquid.ethanol);
  Outcome out;
  out.result(spirit_volume, added);
  out.result(volume_after, then.volume);
  out.result(contraction, then.contraction);
  out.result(ethanol, got);
  out.result(by_crossing, crossed(q));
  if (added > Volume{}) {
    out.additions.push_back({.substance = std::string(grape_spirit),
                             .strength = print(q.spirit.value(), "% vol", 1),
                             .volume = added,
                             .dose = figure(added / q.volume, "L/hL", 2)});
    change_lot(in, q, added, then, out);
    out.task(fmt::format("leave room in the vessel: the volume grows by {}",
                         print((then.volume - q.volume).value(), "L", 1)));
  }
  if (!held && q.enough()) {
    out.checks.push_back(enough_check(target, q.wanted, q.now));
    out.note(fmt::format("strong enough already: {} of ethanol, no spirit is added", print(q.now.value(), "% vol", 2)));
    return out;
  }
  out.checks.push_back(closing_check(target, q.wanted, got, "the two mixed by mass, OIML R 22"));
  if (in.figures_only()) return out;
  compare(q, added, out);
  if (added > Volume{}) say(out);
  return out;
}

}  // namespace vatwright::sugar::fortification
