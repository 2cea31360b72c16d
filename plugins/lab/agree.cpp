#include "plugins/lab/agree.hpp"

#include "plugins/chemistry/acids.hpp"
#include "plugins/chemistry/extract.hpp"
#include "plugins/chemistry/hydrometer.hpp"
#include "plugins/chemistry/must.hpp"
#include "plugins/lab/analysis.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <string>

namespace vatwright::lab {
namespace {

constexpr Strength little_alcohol = 1.0 * percent_vol;

std::string source() { return fmt::format("{} ({})", tolerances.title, tolerances.standing); }

Disagreement clash(std::vector<const Input*> between, std::string name, MassConcentration value,
                   MassConcentration other, std::string remedy) {
  return {.between = std::move(between),
          .check = {.name = std::move(name),
                    .holds = false,
                    .value = figure(value, "g/L", 1),
                    .limit = figure(other, "g/L", 1),
                    .relation = "equals",
                    .source = source(),
                    .remedy = "nothing is dosed on readings that contradict each other. " + std::move(remedy)}};
}

// --- a must

// A reading, and the sugar that it stands for.
struct Witness {
  const Input* key;
  std::string read;
  MassConcentration sugar;
};

bool agree(const Witness& one, const Witness& other) {
  const bool analysis = one.key == &lot::sugar || other.key == &lot::sugar;
  const auto difference = one.sugar - other.sugar;
  const auto tolerance = analysis ? by_analysis : by_two_instruments;
  return difference <= tolerance && difference >= -tolerance;
}

MassConcentration sugar_by(Density density) {
  const Density least = chemistry::sucrose_density(chemistry::must_non_sugar, chemistry::hydrometer_temperature);
  return chemistry::must_sugar(std::max(density, least));
}

std::vector<Witness> witnesses(const Readings& lot) {
  std::vector<Witness> all;
  if (const auto sugar = lot.get(lot::sugar))
    all.push_back({&lot::sugar, "sugar of " + print(*sugar, "g/L", 1), *sugar});
  if (const auto solids = lot.get(lot::soluble_solids))
    all.push_back({&lot::soluble_solids, "soluble solids of " + print(*solids, "°Brix", 1),
                   sugar_by(chemistry::sucrose_density(*solids, chemistry::hydrometer_temperature))});
  if (const auto density = lot.get(lot::density))
    all.push_back({&lot::density, "density of " + print(*density, "kg/m³", 1), sugar_by(*density)});
  return all;
}

bool does_not_ferment(const Readings& lot) {
  if (lot.get(lot::stage) == "wine") return false;
  if (const auto ethanol = lot.get(lot::ethanol)) return *ethanol < little_alcohol;
  if (lot.get(lot::density).value_or(not_fermenting_from) < not_fermenting_from) return false;
  const auto solids = lot.get(lot::soluble_solids);
  return lot.has(lot::density) ||
         (solids && chemistry::sucrose_density(*solids, chemistry::hydrometer_temperature) >= not_fermenting_from);
}

void look_at_must(const Readings& lot, std::vector<Disagreement>& found) {
  const auto all = witnesses(lot);
  const auto alone = [&](const Witness& one) {
    return std::all_of(all.begin(), all.end(),
                       [&](const Witness& other) { return &one == &other || !agree(one, other); });
  };
  const auto loners = std::count_if(all.begin(), all.end(), alone);
  const bool any = std::any_of(all.begin(), all.end(), [&](const Witness& one) {
    return std::any_of(all.begin(), all.end(), [&](const Witness& other) { return !agree(one, other); });
  });
  if (!any) return;
  std::vector<const Input*> between;
  for (const auto& one : all) between.push_back(one.key);
  // Where one pair agrees the third stands alone; else the two that are furthest apart are shown.
  const Witness* odd =
      &*std::max_element(all.begin(), all.end(), [](const Witness& a, const Witness& b) { return a.sugar < b.sugar; });
  if (loners == 1) odd = &*std::find_if(all.begin(), all.end(), alone);
  std::string others;
  MassConcentration sum{};
  for (const auto& one : all) {
    if (&one == odd) continue;
    others += fmt::format("{}{} stands for {}", others.empty() ? "" : ", ", one.read, print(one.sugar, "g/L", 0));
    sum += one.sugar;
  }
  const auto mean = sum / static_cast<double>(all.size() - 1);
  const std::string verdict = loners == 1 ? odd->read + " stands alone" : odd->read + " does not fit the rest";
  found.push_back(
      clash(std::move(between), "readings of the must agree: " + verdict, odd->sugar, mean,
            fmt::format("{} of sugar. Look for a slipped point or another sample, and measure again", others)));
}

// --- what has alcohol

void look_at_wine(const Readings& lot, std::vector<Disagreement>& found) {
  const auto density = lot.get(lot::density);
  const auto strength = lot.get(lot::ethanol);
  if (!density || !strength || *strength < little_alcohol) return;
  const std::string readings = print(*density, "kg/m³", 1) + " with " + print(*strength, "% vol", 1) + " of ethanol";
  // The density that would go with the sugar, and least and most of the rest.
  constexpr MassConcentration most_reckoned = 600.0 * gram_per_litre;
  const auto sugar = std::min(lot.get(lot::sugar).value_or(MassConcentration{}), most_reckoned);
  const auto expected = [&](MassConcentration rest) { return chemistry::wine_density(*strength, sugar + rest); };
  const Density least = expected(least_sugar_free_extract), most = expected(most_sugar_free_extract);
  const bool light = *density < least, heavy = lot.has(lot::sugar) && *density > most;
  if (!light && !heavy) return;
  std::vector<const Input*> between{&lot::density, &lot::ethanol};
  if (lot.has(lot::sugar)) between.push_back(&lot::sugar);
  const Density bound = light ? least : most;
  found.push_back({.between = std::move(between),
                   .check = {.name = "density, ethanol and sugar agree",
                             .holds = false,
                             .value = figure(*density, "kg/m³", 1),
                             .limit = figure(bound, "kg/m³", 1),
                             .relation = light ? "at least" : "at most",
                             .source = source(),
                             .remedy = fmt::format(
                                 "nothing is dosed on readings that contradict each other: a density of {}{} "
                                 "leaves {} for the extract. Measure all on one sample at 20 °C",
                                 readings, lot.has(lot::sugar) ? " and " + print(sugar, "g/L", 1) + " of sugar" : "",
                                 light ? "too little" : "too much")}});
}

// --- acids

void look_at_acids(const Readings& lot, std::vector<Disagreement>& found) {
  const auto all = lot.get(lot::titratable_acidity), part = lot.get(lot::volatile_acidity);
  if (!all || !part || *part <= *all) return;
  found.push_back({.between = {&lot::titratable_acidity, &lot::volatile_acidity},
                   .check = {.name = "volatile acidity is a part of titratable acidity",
                             .holds = false,
                             .value = figure(*part, lot::volatile_acidity.unit, 2),
                             .limit = figure(*all, lot::volatile_acidity.unit, 2),
                             .relation = "at most",
                             .source = "what the two are",
                             .remedy = "nothing is dosed on readings that contradict each other: look which acid each "
                                       "is counted as, and measure both again"}});
}

// In equivalents, whatever share of them is dissociated.
Acidity counted(MassConcentration mass, chemistry::Acid acid) {
  const auto& row = chemistry::row(acid);
  return coherent<Acidity>((mass / row.molar_mass).value() * static_cast<double>(row.protons));
}

AmountConcentration moles_of_potassium(MassConcentration mass) { return mass / molar_mass("K"); }

// What is titrated, and the acid that potassium holds, is all the acid there is; the other cations hold a little more.
void look_at_single_acids(const Readings& lot, std::vector<Disagreement>& found) {
  const auto titrated = lot.get(lot::titratable_acidity);
  const auto tartaric = lot.get(lot::tartaric_acid), malic = lot.get(lot::malic_acid);
  const auto lactic = lot.get(lot::lactic_acid);
  const bool must = lot.get(lot::stage) == "must";
  if (!titrated || !tartaric || !malic || (!lactic && !must)) return;
  Acidity known = counted(*tartaric, chemistry::Acid::tartaric) + counted(*malic, chemistry::Acid::malic) +
                  counted(lactic.value_or(MassConcentration{}), chemistry::Acid::lactic);
  for (const auto& [key, acid] : {std::pair{&lot::citric_acid, chemistry::Acid::citric},
                                  std::pair{&lot::succinic_acid, chemistry::Acid::succinic}})
    known += counted(lot.get(*key).value_or(MassConcentration{}), acid);
  const auto potassium = lot.get(lot::potassium);
  const auto salts = potassium ? moles_of_potassium(*potassium) : least_potassium;
  const Acidity all = *titrated + coherent<Acidity>(salts.value());
  if (all - known <= most_unexplained_acid) return;
  const std::string_view unit = "g/L as tartaric acid";
  found.push_back({.between = {&lot::titratable_acidity, &lot::tartaric_acid, &lot::malic_acid, &lot::lactic_acid},
                   .check = {.name = "titratable acidity and the single acids agree",
                             .holds = false,
                             .value = figure(Acidity(all - known), unit, 1),
                             .limit = figure(most_unexplained_acid, unit, 1),
                             .relation = "at most",
                             .source = source(),
                             .remedy = fmt::format(
                                 "nothing is dosed on readings that contradict each other: the single acids that are "
                                 "stated come to {}, and titratable acidity with potassium asks for {}. Look for a "
                                 "slipped point, and for which acid each figure is counted as",
                                 print(known, unit, 1), print(all, unit, 1))}});
}

// --- ions

void look_at_ions(const Readings& lot, std::vector<Disagreement>& found) {
  const auto read = lot.get(lot::conductivity);
  const auto potassium = lot.get(lot::potassium);
  if (!read || !potassium) return;
  constexpr auto microsiemens = 1e-4 * siemens_per_metre;  // per centimetre
  const auto millimoles = [](AmountConcentration amount) { return (amount / millimole_per_litre).value(); };
  const auto amount = moles_of_potassium(*potassium);
  const Conductivity least = least_per_millimole * millimoles(amount) * microsiemens;
  const Conductivity most = most_per_millimole * millimoles(amount + other_ions) * microsiemens;
  const bool low = *read<least, high = *read> most;
  if (!low && !high) return;
  found.push_back(
      {.between = {&lot::conductivity, &lot::potassium},
       .check = {.name = "conductivity and potassium agree",
                 .holds = false,
                 .value = figure(*read, "µS/cm", 0),
                 .limit = figure(low ? least : most, "µS/cm", 0),
                 .relation = low ? "at least" : "at most",
                 .source = source(),
                 .remedy = fmt::format(
                     "nothing is dosed on readings that contradict each other: {} of potassium {}. "
                     "Look for a slipped point, and measure both on one sample",
                     print(*potassium, "mg/L", 0),
                     low ? "alone conducts more than that" : "and what else a wine holds conduct less than that")}});
}

}  // namespace

std::vector<Disagreement> disagreements(const Readings& lot) {
  std::vector<Disagreement> found;
  if (does_not_ferment(lot)) look_at_must(lot, found);
  look_at_wine(lot, found);
  look_at_acids(lot, found);
  look_at_single_acids(lot, found);
  look_at_ions(lot, found);
  return found;
}

}  // namespace vatwright::lab
