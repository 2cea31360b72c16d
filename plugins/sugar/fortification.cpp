#include "plugins/sugar/fortification.hpp"

#include "plugins/chemistry/alcoholometry.hpp"
#include "plugins/sugar/aim.hpp"
#include "plugins/sugar/sweetener.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

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

void write_results(const Question& q, Volume added, const chemistry::Mixed& then, Outcome& out) {
  out.result(spirit_volume, added);
  out.result(volume_after, then.volume);
  out.result(contraction, then.contraction);
  out.result(ethanol, strength_of(then));
  out.result(by_crossing, crossed(q));
}

// --- the law

bool passes(const Inputs& in, Strength reached) {
  const auto most = in[most_limit];
  return most && !most->met_by(reached);
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
}

void say_law(const Inputs& in, Outcome& out) {
  if (!in[most_limit]) out.note("no rule set of this recipe gives a limit for spirit: check the law of the place");
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

// What is particular to a dose of spirit.
struct Dosing : lab::Job<lab::Aim<Strength>> {
  static constexpr const auto& decided = spirit_volume;
  static constexpr std::string_view model = "the two mixed by mass, OIML R 22", way_out = "fortify a larger lot";
  const Question& q;

  Volume exact() const {
    refuse_weak_spirit(q);
    return stated_volume(in).value_or(spirit_for(q));
  }
  Strength reached(Volume added) const { return lab::any(added) ? strength_of(mixed(q, added)) : q.now; }

  // What is asked for counts for the least strength, since rounding may leave it a hair below.
  bool allowed(Volume) const {
    const auto least = in[least_limit];
    return !passes(in, aim.wanted) && (!least || least->met_by(aim.wanted));
  }
  bool keeps(Volume added) const { return !passes(in, reached(added)); }
  void refuse(Volume) const {
    hold_limits(in, aim.wanted, q, out);
    say_law(in, out);
  }
  void hold(Volume added) const {
    if (lab::any(added)) hold_limits(in, reached(added), q, out);
  }

  void settle(Volume added) const {
    const auto then = mixed(q, added);
    write_results(q, added, then, out);
    if (!lab::any(added)) return;
    const Strength strength = strength_of(then);
    out.change(lot::volume, then.volume);
    out.change(lot::ethanol, strength);
    // Alcohol moves the acids' constants: what cannot be reckoned is not known.
    if (!lab::pour(in, {q.volume, then.volume, chemistry::ethanol_water(added, q.spirit).mass}, strength, out))
      out.forget(lot::ph);
    out.forget(lot::soluble_solids);  // a refractometer does not read sugar beside alcohol
  }
  void order(Volume added) const {
    out.additions.push_back({.substance = std::string(grape_spirit),
                             .strength = print(q.spirit, "% vol", 1),
                             .volume = added,
                             .dose = figure(added / q.volume, "L/hL", 2)});
    ask_for_room(mixed(q, added).volume - q.volume, out);
  }

  void leave() const {
    note_enough(fmt::format("strong enough already: {} of ethanol, no spirit is added", print(q.now, "% vol", 2)),
                q.now);
  }
  void tell(Volume, Volume added) const {
    if (!lab::any(added)) return;
    say_law(in, out);
    compare(q, added, out);
    say(out);
  }
};

}  // namespace

Outcome run(const Inputs& in) {
  Outcome out;
  const Question q = read(in);
  lab::come_about(Dosing{{in, out, q.aim, in.has(stated_spirit)}, q});
  return out;
}

}  // namespace vatwright::sugar::fortification
