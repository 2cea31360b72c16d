#include "plugins/sugar/fortification.hpp"

#include "plugins/chemistry/alcoholometry.hpp"
#include "plugins/sugar/aim.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

#include <cmath>

namespace vatwright::sugar::fortification {
namespace {

constexpr Strength worth_telling = 0.3 * percent_vol;

struct Question {
  Volume volume;
  Strength now, spirit;
  lab::Aim<Strength> aim;

  bool enough() const { return aim.met_by(now); }
};

void refuse_weak_spirit(const Question& q) {
  if (q.spirit <= q.aim.wanted)
    throw InputError(
        "a spirit of " + print(q.spirit, "% vol", 2) + " cannot bring the wine to " + print(q.aim.wanted, "% vol", 2),
        "take a stronger spirit, or lower the target");
}

// The mass of ethanol and of the rest add up: V1 rho1 (p2 - p1) = Vs rhos (ps - p2).
Volume spirit_for(const Question& q) {
  refuse_weak_spirit(q);
  const auto wine = chemistry::ethanol_water(q.volume, q.now);
  const MassFraction aim = chemistry::ethanol_by_mass(q.aim.wanted);
  const MassFraction strong = chemistry::ethanol_by_mass(q.spirit);
  const Mass added = wine.mass * (aim - wine.ethanol) / (strong - aim);
  return added / chemistry::ethanol_water_density(strong, chemistry::strength_temperature);
}

Volume crossed(const Question& q) {
  return q.enough() ? Volume{} : Volume(q.volume * (q.aim.wanted - q.now) / (q.spirit - q.aim.wanted));
}

chemistry::Mixed mixed(const Question& q, Volume added) {
  return chemistry::mix(chemistry::ethanol_water(q.volume, q.now), chemistry::ethanol_water(added, q.spirit));
}

Strength strength_of(const chemistry::Mixed& mixed) { return chemistry::strength_of(mixed.liquid.ethanol); }

void change_lot(const Inputs& in, const Question& q, Volume added, const chemistry::Mixed& then, Outcome& out) {
  const Strength reached = strength_of(then);
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

void write_results(const Question& q, Volume added, const chemistry::Mixed& then, Outcome& out) {
  out.result(spirit_volume, added);
  out.result(volume_after, then.volume);
  out.result(contraction, then.contraction);
  out.result(ethanol, strength_of(then));
  out.result(by_crossing, crossed(q));
}

void stay(const Question& q, Outcome& out) { write_results(q, {}, mixed(q, {}), out); }

void pour(const Inputs& in, const Question& q, Volume added, const chemistry::Mixed& then, Outcome& out) {
  write_results(q, added, then, out);
  if (!(added > Volume{})) return;
  out.additions.push_back({.substance = std::string(grape_spirit),
                           .strength = print(q.spirit, "% vol", 1),
                           .volume = added,
                           .dose = figure(added / q.volume, "L/hL", 2)});
  change_lot(in, q, added, then, out);
  out.task(fmt::format("leave room in the vessel: the volume grows by {}", print(then.volume - q.volume, "L", 1)));
}

// --- the law

bool passes(const Inputs& in, Strength reached) {
  const auto most = in[most_limit];
  return most && !most->met_by(reached);
}

// What is asked for counts for the least strength, since rounding may leave it a hair below.
bool forbidden(const Inputs& in, const Question& q) {
  const auto least = in[least_limit];
  return passes(in, q.aim.wanted) || (least && !least->met_by(q.aim.wanted));
}

void hold_limits(const Inputs& in, Strength reached, const Question& q, Outcome& out) {
  const auto most = in[most_limit];
  std::string remedy = "nothing was dosed";
  if (most && most->value > Strength{})
    remedy += fmt::format(": the limit allows {} % vol", print_number(most->value / percent_vol, 2));
  else if (most)
    remedy += ": no spirit goes into this wine. Of a liqueur wine say 'class: liqueur'";
  if (most) out.hold(most_limit, *most, reached, 2, std::move(remedy));
  if (const auto least = in[least_limit])
    out.hold(least_limit, *least, q.aim.wanted, 2, "nothing was dosed: raise the target");
  if (!most && !in.figures_only())
    out.note("no rule set of this recipe gives a limit for spirit: check the law of the place");
}

void compare(const Question& q, Volume added, Outcome& out) {
  const Volume simple = crossed(q);
  const Strength reached = strength_of(mixed(q, simple));
  out.opinions.push_back({.name = "spirit by cross-mixing, volumes as if they added up",
                          .here = figure(added, "L", 2),
                          .there = figure(simple, "L", 2),
                          .matters = reached > q.aim.wanted + worth_telling,
                          .source = "common practice, no source"});
  const Volume more = simple - added;
  out.note(fmt::format("cross-mixing takes {} {} and makes {}", print(more < Volume{} ? -more : more, "L", 2),
                       more < Volume{} ? "less" : "more", print(reached, "% vol", 2)));
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

std::optional<Volume> stated_volume(const Inputs& in) {
  const auto share = in.get(stated_spirit);
  return share ? std::optional<Volume>(*share * in[lot::volume]) : std::nullopt;
}

Question read(const Inputs& in) {
  Question q{in[lot::volume], in[lot::ethanol], in[spirit], {}};
  if (const auto amount = stated_volume(in))
    q.aim = aim_of_stated<Strength>("ethanol with the stated volume", target.unit, 2, q.now,
                                    strength_of(mixed(q, *amount)));
  else
    q.aim = strength_aim(target, in[target], lab::left_by_cylinder * in[target]);
  return q;
}

// What is particular to a dose of spirit (lab::come_about).
struct Dosing {
  const Inputs& in;
  const Question& q;
  Outcome& out;

  Strength reached(Volume added) const { return strength_of(mixed(q, added)); }

  bool enough() const { return !in.has(stated_spirit) && q.enough(); }
  void leave() {
    stay(q, out);
    out.checks.push_back(q.aim.met(q.now));
    out.note(fmt::format("strong enough already: {} of ethanol, no spirit is added", print(q.now, "% vol", 2)));
    if (q.aim.nearly(q.now)) out.note(std::string(lab::no_more_than_rounding_leaves));
  }

  Volume exact() const {
    refuse_weak_spirit(q);
    return stated_volume(in).value_or(spirit_for(q));
  }
  bool allowed(Volume) const { return !forbidden(in, q); }
  void refuse(Volume) {
    stay(q, out);
    hold_limits(in, q.aim.wanted, q, out);
  }

  Volume measured(Volume exact, lab::Rounding rounding) const {
    return lab::rounded<Volume>(exact, rounding, to_measure);
  }
  bool keeps(Volume, Volume added) const { return !passes(in, reached(added)); }
  Check closing(Volume exact, Volume added) const {
    return q.aim.closing(reached(exact), reached(added), "the two mixed by mass, OIML R 22", "fortify a larger lot");
  }
  void withhold(Check closing) {
    stay(q, out);
    out.checks.push_back(std::move(closing));
  }

  void give(Volume, Volume added, Check closing) {
    pour(in, q, added, mixed(q, added), out);
    out.checks.push_back(std::move(closing));
    if (out.additions.empty()) return;
    hold_limits(in, reached(added), q, out);
    if (in.figures_only()) return;
    compare(q, added, out);
    say(out);
  }
};

}  // namespace

Outcome run(const Inputs& in) {
  Outcome out;
  const Question q = read(in);
  if (const auto held = in.decided(spirit_volume)) {
    const auto then = mixed(q, *held);
    pour(in, q, *held, then, out);
    if (*held > Volume{})
      hold_limits(in, strength_of(then), q, out);
    else
      out.checks.push_back(q.aim.met(q.now));
  } else {
    lab::come_about(Dosing{in, q, out});
  }
  return out;
}

}  // namespace vatwright::sugar::fortification
