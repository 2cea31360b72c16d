#include "plugins/blend/scale.hpp"

#include "plugins/chemistry/rounding.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

namespace vatwright::blend::scale {
namespace {

// Rounding that moves the dose by more than this is too coarse to weigh by.
constexpr double coarse = 0.05;

constexpr std::string_view copper = "copper sulfate pentahydrate";

// A figure of the rule set, and how much of what it counts is in one mass of the substance.
struct Counted {
  const Limit<MassConcentration>* limit;
  Bound<MassConcentration> bound;
  double share;

  MassConcentration most() const { return bound.value / share; }
  bool passed(MassConcentration dose) const { return !bound.met_by(dose * share); }
  void hold(MassConcentration dose, const std::string& remedy, Outcome& out) const {
    out.hold(*limit, bound, MassConcentration(dose * share), 2, remedy);
  }
};
using Law = std::vector<Counted>;

constexpr std::array<std::pair<std::string_view, const Limit<MassConcentration>*>, 7> limit_of{
    {{"PVPP", &pvpp},
     {"activated carbon", &carbon},
     {"chitosan", &chitosan},
     {"yeast hulls", &hulls},
     {"lysozyme", &lysozyme},
     {copper, &copper_sulfate},
     {copper, &copper_added}}};

Law law_of(const Inputs& in) {
  Law law;
  for (const auto& [name, limit] : limit_of)
    if (name == in[substance].id)
      if (const auto bound = in[*limit])
        law.push_back({limit, *bound, limit == &copper_added ? in[substance].active_share : 1.0});
  return law;
}

bool passes(const Law& law, MassConcentration dose) {
  return std::any_of(law.begin(), law.end(), [&](const Counted& c) { return c.passed(dose); });
}

MassConcentration slurry_strength(const Inputs& in) { return in.get(slurry).value_or(in[stock]); }

void write_results(const Inputs& in, Mass weighed, Outcome& out) {
  out.result(dose, weighed / in[lot::volume]);
  out.result(mass, weighed);
  out.result(stock_volume, weighed / in[stock]);
  out.result(slurry_volume, weighed / slurry_strength(in));
}

// What was tried passes a limit: nothing is weighed, and the check says what would be allowed.
void refuse(const Inputs& in, const Law& law, MassConcentration tried, Outcome& out) {
  write_results(in, {}, out);
  for (const auto& counted : law) {
    const auto most = chemistry::down_to_step<MassConcentration>(counted.most(), 0.1 * milligram_per_litre);
    const auto allowed = chemistry::down_to_step<Volume>(most * in[sample] / in[stock], 0.01 * millilitre);
    counted.hold(tried,
                 fmt::format("nothing is weighed. The limit allows {}: {} of this stock in the glass",
                             print(most.value(), "g/hL", 2), print(allowed.value(), "mL", 2)),
                 out);
  }
}

// Water that the slurry brings, counted as its whole volume.
bool water_allows(const Inputs& in, MassConcentration tried, Outcome& out) {
  const auto law = in[water_limit];
  if (!law) return true;
  out.hold(water_limit, *law, tried / slurry_strength(in), 2,
           fmt::format("nothing is weighed. A 'slurry' of {} or more keeps the rule for this dose",
                       print(std::ceil((tried / law->value).value()), "g/L", 0)));
  return out.checks.back().holds;
}

void rounding_check(MassConcentration wanted, MassConcentration given, Outcome& out) {
  const bool fine = std::abs((given - wanted).value()) <= coarse * wanted.value();
  out.checks.push_back({.name = "dose of the trial, with the rounded mass",
                        .holds = fine,
                        .value = figure(given, dose.unit, dose.decimals),
                        .limit = figure(wanted, dose.unit, dose.decimals),
                        .relation = "equals",
                        .source = "stock × aliquot / sample",
                        .remedy = fine ? "" : "the mass is too small for the balance: measure out a stock by volume"});
}

void write_notes(const Inputs& in, Mass weighed, Outcome& out) {
  const Volume made_up = weighed / slurry_strength(in);
  const Shown amount = readable(weighed), volume = readable(made_up);
  out.note(fmt::format("make {:g} {} up to {:.4g} {} ({}); in water it adds {} of the volume of the wine",
                       amount.number, amount.unit, volume.number, volume.unit,
                       print(slurry_strength(in).value(), "g/L", 1),
                       print((made_up / in[lot::volume]).value(), "%", 2)));
  const double diluted = (in[aliquot] / in[sample]).value();
  constexpr double much = 0.03;
  if (diluted > much)
    out.note(fmt::format("the stock diluted the glass by {}: try again with a stronger one before you trust the taste",
                         print(diluted, "%", 1)));
  if (in[substance].id == copper)
    out.note(fmt::format("brings {} of copper; what is left of it in the wine has a limit of its own: measure it",
                         print((weighed / in[lot::volume] * in[substance].active_share).value(), "mg/L", 2)));
  out.note("use the same product, water and mixing as at the bench, and look at the tank before you move it on");
}

}  // namespace

Outcome run(const Inputs& in) {
  Outcome out;
  const MassConcentration tried = in[stock] * in[aliquot] / in[sample];
  if (const auto weighed = in.decided(mass)) {
    write_results(in, *weighed, out);
    return out;
  }
  const Law law = law_of(in);
  if (passes(law, tried)) {
    refuse(in, law, tried, out);
    return out;
  }
  if (!water_allows(in, tried, out)) {
    write_results(in, {}, out);
    return out;
  }
  const Mass exact = tried * in[lot::volume];
  Mass weighed = chemistry::rounded(exact, chemistry::Rounding::nearest, to_balance);
  // Rounding alone must not pass a limit that the trial keeps.
  if (passes(law, weighed / in[lot::volume]))
    weighed = chemistry::rounded(exact, chemistry::Rounding::down, to_balance);
  write_results(in, weighed, out);
  const MassConcentration given = weighed / in[lot::volume];
  rounding_check(tried, given, out);
  for (const auto& counted : law) counted.hold(given, "weigh less", out);
  if (weighed > Mass{}) {
    out.additions.push_back(
        {.substance = in[substance].id, .mass = weighed, .dose = figure(given, dose.unit, dose.decimals)});
    write_notes(in, weighed, out);
  }
  return out;
}

}  // namespace vatwright::blend::scale
