#include "host/cli/convert.hpp"

#include "host/cli/compute.hpp"
#include "units/nearest.hpp"
#include "units/parse.hpp"

#include <fmt/format.h>

#include <array>
#include <cmath>
#include <vector>

namespace vatwright {
namespace {

// The units that people ask for, by no order but that of the answer; each is shown where its dimension fits.
constexpr std::array asked_for{
    "L",    "mL",  "hL",    "m³",    "gal",    "imp gal",     "fl oz", "g",     "mg",  "kg",    "t",      "lb",    "oz",
    "mg/L", "g/L", "g/hL",  "g/mL",  "kg/m³",  "lb/1000 gal", "SG",    "°Oe",   "°Bé", "mol/L", "mmol/L", "meq/L", "°C",
    "°F",   "K",   "% vol", "proof", "% mass", "°Brix",       "%",     "min",   "h",   "d",     "mm",     "in",    "nm",
    "bar",  "kPa", "psi",   "µS/cm", "mS/cm",  "NTU",         "AU",    "AU/cm", "mV",  "g/mol", "pH"};
constexpr int digits = 6;

std::string shown(const Measured& measured, const Unit& unit, const std::string& text) {
  std::string number = fmt::format("{:.{}g}", unit.number(measured.value), digits);
  if (measured.uncertainty > 0) number += fmt::format(" ± {:.2g}", unit.spread(measured.uncertainty, measured.value));
  return text == "1" ? number : number + " " + text;
}

bool fits(const Measured& measured, const Unit& unit) {
  return measured.dimension == unit.dimension && measured.counted == unit.counted;
}

bool is(const Measured& measured, const Dimension& dimension) { return measured.dimension == dimension; }

std::string in_all_units(const Measured& measured) {
  std::vector<std::string> units(asked_for.begin(), asked_for.end());
  for (const auto& basis : bases()) units.push_back("g/L as " + std::string(basis.name));
  std::string out;
  for (const auto& text : units)
    if (const Unit unit = parse_unit(text); fits(measured, unit)) out += shown(measured, unit, text) + "\n";
  return out;
}

// --- scales of sugar

constexpr std::string_view scales = "sugar.convert";

bool is_density(const Measured& measured) {
  constexpr double least = 950;  // kg/m³: no content of something in wine is so much
  return is(measured, dimension_of<Density>()) && measured.value >= least;
}

// What the calculation takes the quantity for; empty: it is no reading of a must.
std::string reading_of(const Measured& measured) {
  if (is(measured, dimension_of<MassFraction>()))
    return fmt::format("soluble solids={:.12g} °Brix", measured.value * 100);
  if (is_density(measured)) return fmt::format("density={:.12g} kg/m³", measured.value);
  return {};
}

// The result that is asked for, by its unit.
std::string_view asked_result(const Unit& unit, const std::string& text) {
  if (unit.dimension == dimension_of<MassFraction>()) return "soluble solids";
  if (unit.dimension == dimension_of<Strength>()) return "potential alcohol";
  if (unit.dimension != dimension_of<Density>()) return {};
  const bool scale = unit.scale != Scale::linear || text == "kg/m³" || text == "g/mL" || text == "kg/L";
  return scale ? "density" : "sugar";
}

std::string by_sugar(House& house, const std::string& reading, std::string_view wanted, const Unit& unit,
                     const std::string& text) {
  const auto sheet = house.bench().run(recipe_of_arguments(std::string(scales), {reading, "temperature=20 °C"}, {}));
  for (const auto& result : sheet.steps.back().outcome.results)
    if (result.info->name == wanted && result.info->dimension == unit.dimension)
      return fmt::format(
          "{:.{}g} {}\n  {}, of a must at 20 °C whose dissolved solids read as sucrose, by {} ('vatwright show {}' "
          "says how "
          "and with what)\n",
          unit.number(result.number), digits, text, wanted, scales, scales);
  return {};
}

[[noreturn]] void refuse(const Measured& measured, const Unit& unit, const std::string& quantity,
                         const std::string& text) {
  const auto acidity = dimension_of<Acidity>(), mass = dimension_of<MassConcentration>();
  std::string hint = "both must be of one kind; 'vatwright units' lists them";
  if ((is(measured, mass) && unit.dimension == acidity) || (is(measured, acidity) && unit.dimension == mass))
    hint =
        "say which acid the mass is counted as, on both sides: '5.1 g/L as tartaric acid' into 'g/L as sulfuric acid'";
  else if (is(measured, acidity) && unit.dimension == dimension_of<AmountConcentration>())
    hint = "an acid may have two equivalents in a mole: ask for meq/L";
  else if (is(measured, mass) && unit.dimension == dimension_of<AmountConcentration>())
    hint = "a mass has no amount until its substance is said; 'vatwright show reagent.solution' goes by its formula";
  else if (measured.counted != unit.counted)
    hint = "say on both sides what it is counted as, such as 'as nitrogen'";
  throw InputError(fmt::format("{} is {}, and '{}' is {}", in_quotes(quantity), describe(measured.dimension), text,
                               describe(unit.dimension)),
                   hint);
}

// What a person may not have meant.
std::string assumed(const Measured& measured, const Unit& unit) {
  const auto hydrometer = [](const Unit& u) { return u.scale != Scale::linear; };
  if (hydrometer(unit)) return "  over water of 20 °C (998.203 kg/m³), and of modulus 145 on the Baumé scale\n";
  if (is(measured, dimension_of<Temperature>())) return "  as a temperature, not as a difference of two\n";
  if (is(measured, dimension_of<Strength>())) return "  by volume at 20 °C\n";
  if (is(measured, dimension_of<Acidity>()))
    return "  equivalents of the acid that is named: the same wine, counted otherwise\n";
  return {};
}

}  // namespace

std::string converted(House& house, const std::string& quantity, const std::string& unit) {
  const Measured measured = parse(quantity);
  if (measured.bare) throw InputError("no unit in " + in_quotes(quantity), "write such as '22.4 °Brix'");
  if (unit.empty()) {
    const std::string all = in_all_units(measured);
    return all.empty() ? fmt::format("{} stands alone in its kind: {}\n", quantity, describe(measured.dimension)) : all;
  }
  const Unit wanted = parse_unit(unit);
  if (fits(measured, wanted) && !(is_density(measured) && asked_result(wanted, unit) == "sugar"))
    return shown(measured, wanted, unit) + "\n" + assumed(measured, wanted);
  const std::string reading = reading_of(measured);
  const auto result = asked_result(wanted, unit);
  if (!reading.empty() && !result.empty())
    if (auto answer = by_sugar(house, reading, result, wanted, unit); !answer.empty()) return answer;
  refuse(measured, wanted, quantity, unit);
}

}  // namespace vatwright
