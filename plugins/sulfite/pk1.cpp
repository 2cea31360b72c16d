#include "plugins/sulfite/pk1.hpp"

#include "plugins/chemistry/sulfite.hpp"
#include "plugins/lab/analysis.hpp"
#include "plugins/sulfite/keys.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace vatwright::sulfite {
namespace {

// What the OIV model goes by.
struct Conditions {
  Strength ethanol;
  Temperature temperature;
};

// Where molecular sulfur dioxide is smelt (Understanding Wine Chemistry, chapter 17).
constexpr MassConcentration nose = 2.0 * milligram_per_litre;

// How far the two published ways of pK1 lie apart in wine from 20 to 25 °C, at the most (derived from them; README).
// Targets were set with one of the two, so that this alone changes nothing that is done.
constexpr double usual_factor = 2.6;

bool further_than_usual(MassConcentration here, MassConcentration there) {
  return there > usual_factor * here || here > usual_factor * there;
}

Conditions conditions(const Inputs& in, Outcome& out) {
  const auto temperature = in.get(lot::temperature);
  if (!in.has(lot::ethanol))
    out.note(fmt::format("ethanol was not given: the OIV model takes {}, for {}",
                         print(lab::usual_ethanol(in), "% vol", 0), lab::is_must(in) ? "must" : "wine"));
  if (!temperature)
    out.note("temperature was not given: the OIV model takes " + print(chemistry::laboratory_temperature, "°C", 0));
  return {lab::ethanol(in), temperature.value_or(chemistry::laboratory_temperature)};
}

NamedPk1 given(const Inputs& in) { return {in[pk1], "as given", "as given"}; }

NamedPk1 constant() { return {chemistry::trade_pk1, "the trade's constant", "common practice, no source"}; }

NamedPk1 oiv(const Conditions& at, Outcome& out) {
  const auto value = chemistry::oiv_pk1(at.ethanol, at.temperature);
  if (at.ethanol > chemistry::oiv_table_strength)
    out.note(fmt::format("the table of OIV-MA-AS323-04C was read up to {}; pK1 runs on from there in a straight line",
                         print(chemistry::oiv_table_strength, "% vol", 0)));
  return {value,
          fmt::format("OIV-MA-AS323-04C at {} and {}", print(at.ethanol, "% vol", 1), print(at.temperature, "°C", 1)),
          "OIV-MA-AS323-04C, Table I"};
}

// As an aside the model is not refused for a cold cellar: it is read where its table begins.
std::optional<NamedPk1> oiv_beside(const Inputs& in, Outcome& out) {
  Conditions at = conditions(in, out);
  if (at.ethanol > chemistry::oiv_most_strength) {
    out.note("no second opinion of OIV-MA-AS323-04C: it ends at " + print(chemistry::oiv_most_strength, "% vol", 0));
    return std::nullopt;
  }
  const auto nearest = std::clamp(at.temperature, chemistry::oiv_least_temperature, chemistry::oiv_most_temperature);
  if (nearest != at.temperature)
    out.note(fmt::format("the second opinion of OIV-MA-AS323-04C is shown at {}: its table {} there",
                         print(nearest, "°C", 0), nearest > at.temperature ? "begins" : "ends"));
  at.temperature = nearest;
  return oiv(at, out);
}

bool oiv_is_chosen(const Inputs& in) { return !in.has(pk1) && in.get(model) == oiv_model; }

}  // namespace

NamedPk1 chosen_pk1(const Inputs& in, Outcome& out) {
  NamedPk1 used = in.has(pk1) ? given(in) : oiv_is_chosen(in) ? oiv(conditions(in, out), out) : constant();
  if (!in.figures_only()) out.note(fmt::format("pK1 {:.3f}: {}", used.value.value(), used.name));
  return used;
}

std::vector<NamedPk1> other_pk1s(const Inputs& in, Outcome& out) {
  if (oiv_is_chosen(in)) return {constant()};
  std::vector<NamedPk1> others;
  if (in.has(pk1)) others.push_back(constant());
  if (auto beside = oiv_beside(in, out)) others.push_back(std::move(*beside));
  return others;
}

void compare_molecular(const Inputs& in, MassConcentration free_so2, const NamedPk1& used, Outcome& out) {
  if (in.figures_only()) return;
  const auto molecular = [&](Fraction pk) { return free_so2 * chemistry::molecular_share(in[lot::ph], pk); };
  const auto here = molecular(used.value);
  auto most = here;
  for (const auto& other : other_pk1s(in, out)) {
    const auto there = molecular(other.value);
    most = std::max(most, there);
    out.opinions.push_back({.name = fmt::format("molecular SO2 by {}, pK1 {:.3f}", other.name, other.value.value()),
                            .here = figure(here, "mg/L", 2),
                            .there = figure(there, "mg/L", 2),
                            .matters = further_than_usual(here, there) || (there >= nose && here < nose),
                            .source = other.source});
  }
  if (most >= nose)
    out.note(fmt::format("{} of molecular SO2 or more is noticed on the nose{}", print(nose, "mg/L", 0),
                         here >= nose ? "" : "; another model of pK1 puts this lot there"));
}

bool matters(double here, double there) {
  return std::abs(here - there) > 0.2 * std::max(std::abs(here), std::abs(there));
}

}  // namespace vatwright::sulfite
