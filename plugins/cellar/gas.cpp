#include "plugins/cellar/gas.hpp"

#include "plugins/lab/rounding.hpp"
#include "units/parse.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace vatwright::cellar::gas {
namespace {

// Mass of a volume of gas.
using GasDensity = MassConcentration;
GasDensity density(const Inputs& in) {
  return coherent<GasDensity>(atmosphere * in[agent].molar_mass.value() /
                              (gas_constant * in[cellar_temperature].value()));
}

void caution(Outcome& out) {
  out.note(
      "CONFINED SPACE: a head space or tank with this gas kills within breaths, without a smell. Nobody puts a head "
      "in: oxygen meter, permit, air supplied, a second person outside, and a sign on the tank");
}

}  // namespace

Outcome run(const Inputs& in) {
  if (in[wanted] >= in[there]) {
    Outcome out;
    out.result(changes_of_volume, Fraction(0.0));
    out.result(gas_volume, Volume{});
    out.result(gas_mass, Mass{});
    out.checks.push_back({.name = "oxygen in the head space",
                          .holds = true,
                          .value = figure(in[there], "%", 2),
                          .limit = figure(in[wanted], "%", 2),
                          .relation = "at most",
                          .source = std::string(as_asked_for),
                          .remedy = ""});
    if (!in.figures_only()) caution(out);
    return out;
  }
  const double volumes = std::log((in[there] / in[wanted]).value()) * std::max(0.0, 1 + in[mixes_fully].value());
  const Volume needed = volumes * in[headspace];
  const Mass exact = needed * density(in);
  const Mass weighed = in.decided(gas_mass) ? *in.decided(gas_mass) : to_balance(exact);
  Outcome out;
  out.result(changes_of_volume, Fraction(volumes));
  out.result(gas_volume, needed);
  out.result(gas_mass, weighed);
  out.additions.push_back({.substance = in[agent].id,
                           .mass = weighed,
                           .dose = figure(MassConcentration(weighed / in[headspace]), "g/L", 2),
                           .when = "into the head space, not into the wine"});
  if (in.figures_only()) return out;
  caution(out);
  out.opinions.push_back({.name = "a heavy gas let in slowly from below, in head spaces of gas",
                          .here = figure(Fraction(volumes), "1", 2),
                          .there = figure(Fraction(0.25), "1", 2),
                          .source = std::string(from_below.title) + ", " + std::string(from_below.place)});
  out.note(
      fmt::format("{} of the head space, with full mixing; a gas meter or the loss of mass of the cylinder measures it "
                  "out, an oxygen meter in the outlet says when to stop",
                  print(Fraction(volumes), "1", 2)));
  if (in[agent].id == "carbon dioxide")
    out.note("carbon dioxide goes into the wine too: the cover shrinks, and the wine may prickle");
  return out;
}

}  // namespace vatwright::cellar::gas
