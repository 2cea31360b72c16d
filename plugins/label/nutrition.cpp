#include "plugins/label/nutrition.hpp"

#include "units/basis.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace vatwright::label::nutrition {
namespace {

// Regulation (EU) No 1169/2011, Annex XIV.
struct Factor {
  double kilojoules, kilocalories;  // for a gram
};
constexpr Factor of_ethanol{29, 7}, of_carbohydrate{17, 4}, of_acids{13, 3}, of_polyols{10, 2.4};

// Of pure ethanol at 20 °C, 789.24 kg/m³ (OIML R 22): of 1 % vol 7.89 g in a litre.
constexpr auto ethanol_by_strength = 7.8924 * gram_per_litre / percent_vol;

struct Parts {
  MassConcentration ethanol, sugar, acids, polyols;

  EnergyPerVolume energy(double Factor::*unit, Energy one) const {
    const MassConcentration weighed = ethanol * (of_ethanol.*unit) + sugar * (of_carbohydrate.*unit) +
                                      acids * (of_acids.*unit) + polyols * (of_polyols.*unit);
    return weighed * (one / gram);
  }
};

MassConcentration acids_of(const Inputs& in) {
  if (const auto measured = in.get(acids)) return *measured;
  if (const auto titrated = in.get(lot::titratable_acidity))
    return *titrated * coherent<EquivalentMass>(1 / counted_per_kilogram(*find_basis("tartaric acid"))) *
           (1 + in[acids_by_titration].value());
  throw InputError("neither the organic acids nor the titratable acidity are known, and their energy is declared too",
                   "give 'organic acids', or the lot's 'titratable acidity'");
}

bool glycerol_is_taken(const Inputs& in) { return in[lot::glycerol] == 8.0 * gram_per_litre; }  // usual_glycerol

MassConcentration glycerol_of(const Inputs& in) {
  if (!glycerol_is_taken(in)) return in[lot::glycerol];
  return std::max<MassConcentration>(in[lot::glycerol] + in[glycerol_taken], MassConcentration{});
}

double for_100_mL(MassConcentration content) { return content / (10.0 * gram_per_litre); }

// As the guidance rounds grams in 100 mL.
std::string grams(MassConcentration content) {
  const double g = for_100_mL(content);
  if (g >= 10) return print_number(std::round(g), 0) + " g";
  return g > 0.5 ? print_number(g, 1) + " g" : "< 0.5 g";
}

std::string salt_grams(MassConcentration content) {
  const double g = for_100_mL(content);
  if (g >= 1) return print_number(g, 1) + " g";
  return g > 0.0125 ? print_number(g, 2) + " g" : "< 0.01 g";
}

Table declared(const Inputs& in, const Parts& parts, EnergyPerVolume kj, EnergyPerVolume kcal) {
  Table table{
      .name = "declaration for 100 mL, as it is printed", .columns = {{"nutrient"}, {"for 100 mL"}}, .rows = {}};
  const auto row = [&](const char* name, std::string text) {
    table.rows.push_back({std::string(name), std::move(text)});
  };
  row("energy (E)",
      fmt::format("{} / {}", print(kj * (100.0 * millilitre), "kJ", 0), print(kcal * (100.0 * millilitre), "kcal", 0)));
  row("fat", "0 g");
  row("of which saturates", "0 g");
  row("carbohydrate", grams(parts.sugar + parts.polyols));
  row("of which sugars", grams(parts.sugar));
  row("protein", "0 g");
  row("salt",
      in.has(lot::sodium) ? salt_grams(in[lot::sodium] * 2.5) : std::string("not known: sodium was not measured"));
  return table;
}

}  // namespace

Outcome run(const Inputs& in) {
  const Parts parts{in[lot::ethanol] * ethanol_by_strength, in[lot::sugar], acids_of(in),
                    glycerol_of(in) + in[polyols]};
  const auto kj = parts.energy(&Factor::kilojoules, kilojoule);
  const auto kcal = parts.energy(&Factor::kilocalories, kilocalorie);
  Outcome out;
  out.result(kilojoules, kj);
  out.result(kilocalories, kcal);
  out.result(carbohydrate, parts.sugar + parts.polyols);
  out.result(sugars, parts.sugar);
  if (const auto sodium = in.get(lot::sodium)) out.result(salt, *sodium * 2.5);
  if (in.figures_only()) return out;
  out.tables.push_back(declared(in, parts, kj, kcal));
  out.note(
      "kJ and kcal are each by their own factors, never one from the other; energy for 100 mL (with the symbol E) and "
      "the allergens stay on the label, the rest may be read elsewhere, where nobody is tracked and nothing is sold "
      "(from memory)");
  out.note(
      "'contains negligible amounts of fat, saturates, protein and salt' may stand in the place of their rows where "
      "that "
      "is so; fat and protein are taken as none (from memory)");
  if (!in.has(acids)) out.note("the titratable acidity, as tartaric acid, counts as the organic acids");
  if (glycerol_is_taken(in))
    out.note(
        "glycerol of 8 g/L is the figure taken in practice for wines that it was not measured in; a wine of noble "
        "rot has up to 25");
  return out;
}

}  // namespace vatwright::label::nutrition
