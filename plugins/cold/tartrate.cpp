#include "plugins/cold/tartrate.hpp"

#include "plugins/lab/analysis.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace vatwright::cold::tartrate {
namespace {

using chemistry::Acid;
using chemistry::Bitartrate;
using chemistry::Composition;
using chemistry::Course;
using chemistry::Ion;

std::string degrees(Temperature t) { return print(t, "°C", 1); }

// The wine now and with the crystals out of it, both as read on the bench.
struct Prediction {
  Temperature cold;
  chemistry::Medium bench;
  Composition now;
  chemistry::Equilibrium at;
  chemistry::Deposit deposit;
  Fraction saturation;
  Temperature saturated_at;
  Temperature stands_at;  // a pure solution that is saturated there holds as much as this wine does in the cold

  Ph ph_now() const { return at.ph; }
  Ph ph_then() const { return chemistry::equilibrium(deposit.left, bench).ph; }
  MassConcentration fallen() const { return deposit.removed * chemistry::bitartrate_molar_mass; }
};

MassConcentration mass_of(const Composition& c, Ion ion) { return c[ion] * chemistry::row(ion).molar_mass; }
MassConcentration mass_of(const Composition& c, Acid acid) { return c[acid] * chemistry::row(acid).molar_mass; }

Temperature reckoned(Temperature t) {
  return std::clamp(t, chemistry::least_saturation_temperature, chemistry::most_saturation_temperature);
}

bool is_wine(const Inputs& in) { return in[holds_back] == in_wine; }

// How far the model is off in this run: the true saturation temperature lies so much higher.
TemperatureInterval off(const Inputs& in) { return is_wine(in) ? in[saturation_of_wine] : in[saturation_of_solution]; }

// By so much a wine may be above its saturation temperature when practice calls it stable: it was set for -4 °C.
TemperatureInterval held_back(const Inputs& in) {
  return is_wine(in) ? TemperatureInterval(criterion_of(in).most - held_near) : TemperatureInterval{};
}

Prediction predict(const Inputs& in, const Bitartrate& model, Outcome& out) {
  const Temperature cold = in[hold_at];
  const Temperature stands_at = reckoned(cold + held_back(in));
  const auto bench = bench_medium(in);
  const Composition now = composition_of(in, bench, out);
  return {cold,
          bench,
          now,
          chemistry::equilibrium(now, bench),
          model.deposit(now, reckoned(stands_at - off(in))),
          model.saturation(now, reckoned(cold - off(in))),
          reckoned(model.saturation_temperature(now) + off(in)),
          stands_at};
}

// Where crystals cannot grow at any temperature that is reckoned there is no saturation temperature to state.
bool below_all(const Prediction& p) { return p.saturated_at <= chemistry::least_saturation_temperature; }

void write_results(const Inputs& in, const Prediction& p, Outcome& out) {
  out.result(concentration_product, chemistry::concentration_product(p.now, p.at, p.bench));
  out.result(saturation_ratio, p.saturation);
  if (!below_all(p)) out.result(saturation_temperature, p.saturated_at);
  out.result(precipitate, p.fallen());
  const auto potassium = mass_of(p.deposit.left, Ion::potassium);
  const auto tartaric = mass_of(p.deposit.left, Acid::tartaric);
  const Ph ph = p.ph_then();
  const auto acidity = chemistry::titratable_acidity(p.deposit.left, endpoint_of(in), p.bench);
  out.result(potassium_after, potassium);
  out.result(tartaric_after, tartaric);
  out.result(ph_after, ph);
  out.result(acidity_after, acidity);
  if (in[crystals] != fall_out || !(p.deposit.removed > AmountConcentration{})) return;
  out.change(lot::potassium, potassium);
  out.change(lot::tartaric_acid, tartaric);
  out.change(lot::ph, ph);
  out.change(lot::titratable_acidity, acidity);
}

// --- the verdict

// A normal law around what was reckoned, as wide as the model's own uncertainty.
void tell_chance(const Prediction& p, const Criterion& criterion, Outcome& out) {
  const double away = (criterion.most - p.saturated_at).value() / (saturation_of_wine.standard * std::numbers::sqrt2);
  const double chance = 0.5 * std::erfc(-away);
  constexpr double likely = 0.9, unlikely = 0.1;
  out.note(
      fmt::format("{}: the chance that this wine keeps within that limit is about {:.0f} %, since a saturation "
                  "temperature reckoned from an analysis is good to {:g} K ({}, {})",
                  chance > likely     ? "likely stable"
                  : chance < unlikely ? "stability is unlikely"
                                      : "doubtful",
                  100 * std::clamp(chance, 0.01, 0.99), saturation_of_wine.standard, saturation_of_wine.source.title,
                  saturation_of_wine.source.standing));
}

void verdict(const Inputs& in, const Prediction& p, Outcome& out) {
  // A wine that is not even saturated where it is held is stable there, whatever the criterion.
  Criterion criterion = criterion_of(in);
  criterion.most = std::max(criterion.most, p.cold);
  out.checks.push_back(
      saturation_check(fmt::format("bitartrate stable at {}", degrees(p.cold)), p.saturated_at, criterion,
                       "confirm it with the cold test; then chill and seed, or protect the wine: see cold.treatment"));
  if (below_all(p)) out.checks.back().value.reset();
  if (!in.figures_only()) tell_chance(p, criterion, out);
}

void product_check(const Inputs& in, const Prediction& p, Outcome& out) {
  const auto limit = in.get(safe_product);
  if (limit.has_value() != in.has(safe_product_source))
    throw InputError(limit ? "the safe concentration product stands without its source"
                           : "there is a source of a safe concentration product, but no figure",
                     "give both, such as 'safe concentration product: 90 mmol²/L²' and 'safe product source: ...'");
  if (!limit) return;
  const auto product = chemistry::concentration_product(p.now, p.at, p.bench);
  const bool holds = product <= *limit;
  out.checks.push_back({.name = "concentration product",
                        .holds = holds,
                        .value = figure(product, "mmol²/L²", 1),
                        .limit = figure(*limit, "mmol²/L²", 1),
                        .relation = "at most",
                        .source = std::string(in[safe_product_source]),
                        .remedy = holds ? ""
                                        : "see whether this limit was set for this kind of wine; the cold test "
                                          "settles it"});
}

// --- what stands beside the answer

// With the pH and the activities of the wine before it.
void by_hand(const Prediction& p, const Bitartrate& model, Outcome& out) {
  const auto cold = model.medium(p.cold);
  const auto at = chemistry::equilibrium(p.now, cold);
  const auto share = chemistry::share(Acid::tartaric, 1, at, cold);
  const SolubilityProduct left = chemistry::concentration_product(p.now, at, cold) / p.saturation;
  const MassConcentration held =
      chemistry::deposit_at_held_ph(p.now[Ion::potassium], p.now[Acid::tartaric], share, left) *
      chemistry::bitartrate_molar_mass;
  out.opinions.push_back({.name = "precipitate, with the pH and the activities held as they are now",
                          .here = figure(p.fallen(), "g/L", 2),
                          .there = figure(held, "g/L", 2),
                          .matters = std::abs((held - p.fallen()).value()) > 0.1 * p.fallen().value(),
                          .source = "reckoning by hand, derived"});
}

void second_opinions(const Inputs& in, const Prediction& p, const Bitartrate& model, Outcome& out) {
  const auto pure = model.deposit(p.now, p.cold);
  if (is_wine(in))
    out.opinions.push_back({.name = "precipitate of the pure solution, the most that can fall out",
                            .here = figure(p.fallen(), "g/L", 2),
                            .there = figure(pure.removed * chemistry::bitartrate_molar_mass, "g/L", 2),
                            .matters = false,
                            .source = "the same model without what a wine holds back"});
  const Bitartrate other(in[lot::ethanol], Course::ten_degrees);
  const auto there = other.saturation(p.now, p.cold);
  // A lot that was racked off its crystals stands at 1, but for the arithmetic.
  const auto above = [](Fraction ratio) { return ratio > coherent<Fraction>(1 + 1e-6); };
  out.opinions.push_back({.name = "saturation ratio, with the solubility of 10 °C alone for its fall in the cold",
                          .here = figure(p.saturation, "1", 2),
                          .there = figure(there, "1", 2),
                          .matters = above(there) != above(p.saturation),
                          .source = "about 0.4 % in water at 10 °C, general data collection, one digit"});
  if (!is_wine(in) && p.deposit.removed > AmountConcentration{}) by_hand(p, model, out);
}

std::string beyond(const Prediction& p) {
  if (p.saturated_at <= chemistry::least_saturation_temperature) return "; it lies below what is reckoned";
  if (p.saturated_at >= chemistry::most_saturation_temperature) return "; it lies above what is reckoned";
  return {};
}

void notes(const Inputs& in, const Prediction& p, Outcome& out) {
  const Value* potassium = in.find(lot::potassium);
  if (potassium->written.empty())
    out.note("potassium is as the steps before this one left it, with what their additions brought");
  const Ph pivot = chemistry::tartrate_pivot(p.at, p.bench);
  if (p.deposit.removed > AmountConcentration{})
    out.note(fmt::format("the pH {} from {} to {}: below about {} in this wine a deposit lowers it, above it raises it",
                         p.ph_then() < p.ph_now() ? "falls" : "rises", print_number(p.ph_now().value(), 2),
                         print_number(p.ph_then().value(), 2), print_number(pivot.value(), 2)));
  if (is_wine(in))
    out.note(
        fmt::format("model: a wine. It is taken to hold as much as a pure solution does at {}, {} warmer: by so "
                    "much a wine that practice calls stable at {} may be above its saturation temperature ({})",
                    degrees(p.stands_at), print_number((p.stands_at - p.cold).value(), 1) + " K", degrees(held_near),
                    criterion_of(in).source));
  else
    out.note("model: the pure solution. A wine holds more: colloids, and potassium and tartrate that are bound");
  if (const Temperature freezes = celsius(-0.5 * (in[lot::ethanol] / percent_vol)); p.cold < freezes)
    out.note(
        fmt::format("at {} a wine of {} is partly frozen (from about {}, half of its strength: common practice, no "
                    "source); ice takes water away, and more falls out of what is left",
                    degrees(p.cold), print(in[lot::ethanol], "% vol", 1), degrees(freezes)));
  if (lab::is_must(in))
    out.note(
        "of a must: solubilities are per litre, and a must has less water in a litre than a wine, by its sugar; it "
        "is nearer to crystals than reckoned");
  if (std::abs((p.cold - held_near).value()) > 1 && !in.has(most_saturation))
    out.note("the practice limits of the saturation temperature are meant for wine held near -4 °C");
  if (const auto out_of_range = beyond(p); !out_of_range.empty())
    out.note(fmt::format("saturation temperature {}{}", degrees(p.saturated_at), out_of_range));
  out.note(
      "solubility rests on saturated solutions in water at 25 °C and at 10 % vol and 20 °C (2.9 g/L); its fall in the "
      "cold is the line through cited values in water from 10 to 100 °C. They spread: at 20 °C the line lies 8 % under "
      "the cited 5.7 g/L, at 10 °C 13 % under one of a single digit. No classical table was confirmed");
  out.note(
      "activities are those of the holding temperature (of 0 °C below it), as are the constants of the "
      "acids; crystals take time");
  out.note(in[crystals] == fall_out ? "the lot goes on as if held until the crystals were out and racked off cold"
                                    : "the lot stays as it is; say 'crystals: fall out' for one that was held and "
                                      "racked off cold");
  out.note(std::string(bitartrate_test));
}

void draw(const Prediction& p, const Bitartrate& model, Outcome& out) {
  constexpr int coldest = -6, warmest = 30, step = 4;
  Chart chart{.name = "bitartrate: saturation ratio by temperature",
              .x = {"temperature", "°C", 0},
              .y = {"saturation ratio", "1", 2},
              .traces = {{.name = "this wine, everything dissolved", .points = {}},
                         {.name = "held here", .dots = true, .points = {}}},
              .band = std::pair{0.0, 1.0},
              .band_name = "no crystals can grow"};
  for (int t = coldest; t <= warmest; t += step)
    chart.traces[0].points.emplace_back(celsius(t).value(), model.saturation(p.now, celsius(t)).value());
  chart.traces[1].points.emplace_back(p.cold.value(), p.saturation.value());
  out.charts.push_back(std::move(chart));
}

}  // namespace

Outcome run(const Inputs& in) {
  Outcome out;
  const Bitartrate model(in[lot::ethanol]);
  const auto prediction = predict(in, model, out);
  write_results(in, prediction, out);
  verdict(in, prediction, out);
  product_check(in, prediction, out);
  if (in.figures_only()) return out;
  second_opinions(in, prediction, model, out);
  notes(in, prediction, out);
  draw(prediction, model, out);
  return out;
}

}  // namespace vatwright::cold::tartrate
