#include "plugins/assay/reducing.hpp"

#include "units/print.hpp"

#include <fmt/format.h>

#include <array>
#include <cmath>

namespace vatwright::assay::reducing {
namespace {

// mg of sugar to 0, 1, 2 ... 23 mL of thiosulfate 0.1 mol/L. The print has 47.2 at 18 mL, beside differences of 2.9 and
// 2.9, which make 47.1. No formula stands behind it: the copper that sugar reduces depends on how it is boiled.
constexpr std::array sugar_mg{0.0,  2.4,  4.8,  7.2,  9.7,  12.2, 14.7, 17.2, 19.8, 22.4, 25.0, 27.6,
                              30.3, 33.0, 35.7, 38.5, 41.3, 44.2, 47.1, 50.0, 53.0, 56.0, 59.1, 62.2};
constexpr AmountConcentration of_table = 0.1 * mole_per_litre;

Mass sugar_of(Volume thiosulfate) {
  const double x = thiosulfate / millilitre;
  const double last = static_cast<double>(sugar_mg.size()) - 1;
  if (x > last)
    throw InputError(fmt::format("{} of thiosulfate 0.1 mol/L is past the table, which ends at {:.0f} mL",
                                 print(thiosulfate, "mL", 2), last),
                     "dilute the sample: below 60 mg of sugar in the flask");
  const auto row = std::min(static_cast<std::size_t>(x), sugar_mg.size() - 2);
  return std::lerp(sugar_mg.at(row), sugar_mg.at(row + 1), x - static_cast<double>(row)) * (gram / 1000.0);
}

MassConcentration found_by(const Inputs& in, Volume used) {
  if (used > in[copper_blank])
    throw InputError("the sample used more thiosulfate than the blank: " + print(used, "mL", 2) + " against " +
                         print(in[copper_blank], "mL", 2),
                     "sugar leaves less copper to titrate: look whether the two are swapped");
  const Volume taken_up = (in[copper_blank] - used) * (in[titrant_concentration] * in[lab::factor] / of_table);
  return sugar_of(taken_up) * in[dilution] / in[sample];
}

// 5.8 % between laboratories, a third of that within one (common practice, no source).
constexpr double usual_share = 0.02;

}  // namespace

Outcome run(const Inputs& in) {
  Outcome out;
  out.reagents = {"copper reagent", "sodium thiosulfate", "sulfuric acid", "starch indicator"};
  std::vector<double> found;
  for (const Volume& used : lab::titrants_of(in, titrant)) found.push_back(found_by(in, used).value());
  const auto limit = in.get(repeatability).value_or(coherent<MassConcentration>(usual_share * found.front()));
  const auto reported = lab::report(found, limit.value(), reducing_sugar.dimension,
                                    {reducing_sugar.unit, reducing_sugar.decimals}, in, out);
  const auto value = lab::value_of<MassConcentration>(reported);
  if (!value) return out;
  out.result(reducing_sugar, *value, reported.standard, reported.name);
  if (in.figures_only()) return out;
  out.note("the table holds for 25 mL of copper solution and 25 mL of sample, boiled 10 minutes");
  out.note(
      "clear and decolour the sample first; phenols and pentoses reduce copper too, so that a dry wine reads 1 to 2 "
      "g/L");
  out.note("waste with copper goes as local rules say");
  return out;
}

}  // namespace vatwright::assay::reducing
