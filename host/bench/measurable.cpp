#include "host/bench/measurable.hpp"

#include "units/constants.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace vatwright {
namespace {

// The least that is measured out within a twentieth, and the lots that are a tank and not a trial on the bench: common
// practice, no source. A trial has a balance to 0.01 g and a pipette, a tank a balance to 0.1 g and a cylinder; a gas
// is let out by the loss of its cylinder on a scale.
constexpr char standing[] = "common practice, no source";
constexpr Volume tank_from = 50.0 * litre;
constexpr Mass least_mass_on_the_bench = 0.1 * gram, least_mass_for_a_tank = 1.0 * gram;
constexpr Volume least_volume_on_the_bench = 0.1 * millilitre, least_volume_for_a_tank = 1.0 * millilitre;
constexpr Mass least_gas = 10.0 * gram;

// An amount of either kind, coherent, with what the smallest of its kind may be.
struct Measure {
  bool by_mass;
  double amount, least;

  bool well() const { return amount >= least * (1 - 1e-9); }
  std::string words(double coherent) const {
    const Shown shown = by_mass ? readable(Mass::from_value(coherent)) : readable(Volume::from_value(coherent));
    return with_unit(print_significant(shown.number, 3), shown.unit);
  }
  Figure figure(double coherent) const {
    constexpr int digits = 3;
    const std::string_view unit = by_mass ? "g" : "mL";
    const double number = coherent / (by_mass ? gram.value() : millilitre.value());
    const int decimals = std::clamp(digits - 1 - static_cast<int>(std::floor(std::log10(number))), 0, 9);
    return by_mass ? vatwright::figure(Mass::from_value(coherent), unit, decimals)
                   : vatwright::figure(Volume::from_value(coherent), unit, decimals);
  }
};

Measure measure(const Addition& addition, bool gas, std::optional<Volume> lot) {
  const auto takes = addition.part ? addition.part : lot;
  const bool bench = takes && *takes < tank_from;
  if (!addition.mass)
    return {false, addition.volume->value(), (bench ? least_volume_on_the_bench : least_volume_for_a_tank).value()};
  const Mass least = gas ? least_gas : bench ? least_mass_on_the_bench : least_mass_for_a_tank;
  return {true, addition.mass->value(), least.value()};
}

// Ten, a hundred or a thousand times as much, made up so that 10 mL of it are the dose.
std::string diluted(const Measure& m) {
  constexpr Volume portion = 10.0 * millilitre;
  for (const double times : {10.0, 100.0, 1000.0})
    if (m.amount * times >= m.least) {
      const Shown all = readable(Volume(portion * times));
      return fmt::format("{} {}, make it up to {} with water as its handling says, and give {} of that",
                         m.by_mass ? "weigh" : "measure", m.words(m.amount * times),
                         with_unit(fmt::format("{:g}", all.number), all.unit), print(portion, "mL", 0));
    }
  return {};
}

std::string instead(const Measure& m, bool gas, std::optional<Volume> lot) {
  std::string words = gas ? "use a salt or a solution for so small a lot" : diluted(m);
  if (lot && m.amount > 0) {
    // To two figures, and never less than what is enough.
    const double enough = lot->value() * m.least / m.amount;
    const double step = std::pow(10.0, std::floor(std::log10(enough)) - 1);
    const Shown all = readable(Volume::from_value(std::ceil(enough / step - 1e-9) * step));
    words += fmt::format("{}treat a lot of {} or more at once", words.empty() ? "" : ", or ",
                         with_unit(fmt::format("{:.5g}", all.number), all.unit));
  }
  return words.empty() ? "treat more at once" : words;
}

}  // namespace

bool refuse_unmeasurable(const Catalogue& catalogue, std::optional<Volume> volume, Outcome& outcome) {
  std::vector<Check> failing;
  std::vector<std::string> named;
  for (const auto& addition : outcome.additions) {
    const Substance* substance = catalogue.find(addition.substance);
    const bool gas = substance != nullptr && substance->form == "gas";
    const Measure m = measure(addition, gas, volume);
    if (m.well() || std::find(named.begin(), named.end(), addition.substance) != named.end()) continue;
    named.push_back(addition.substance);
    failing.push_back(
        {.name = addition.substance + " can be measured out",
         .holds = false,
         .value = m.figure(m.amount),
         .limit = m.figure(m.least),
         .relation = "at least",
         .source = standing,
         .remedy = "nothing was dosed: nobody can measure out so little well. Instead, " + instead(m, gas, volume)});
  }
  if (failing.empty()) return false;
  if (makes_lots(outcome)) {
    outcome.additions.clear();
  } else {
    outcome = Outcome{};
    outcome.note("nothing of this step was done to the lot: it has what it had");
  }
  for (auto& check : failing) outcome.checks.push_back(std::move(check));
  // What the remedy names comes with its cautions.
  for (auto& id : named)
    if (std::find(outcome.reagents.begin(), outcome.reagents.end(), id) == outcome.reagents.end())
      outcome.reagents.push_back(std::move(id));
  return true;
}

}  // namespace vatwright
