#include "plugins/assay/volatile.hpp"

#include "plugins/chemistry/composition.hpp"
#include "plugins/chemistry/titration.hpp"
#include "plugins/lab/reagent.hpp"
#include "units/basis.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

namespace vatwright::assay::volatile_acids {
namespace {

// Of one mole each, to the end point of the distillate: free sulfur dioxide takes two of hydroxide, that which is bound
// to acetaldehyde one, sorbic acid one. Iodine finds one mole for one.
constexpr double of_free = 2, of_bound = 1;
constexpr MolarMass sorbic_molar_mass = molar_mass("C6H8O2");

Acidity found_by(const Inputs& in, Volume used) {
  const Volume net = chemistry::net_titrant(used, in[blank]);
  const auto iodine = in[iodine_concentration];
  const Amount base = net * in[titrant_concentration] * in[lab::factor];
  const Amount sulfurous = iodine * in[iodine_free] * of_free + iodine * in[iodine_bound] * of_bound;
  return chemistry::equivalents((base - sulfurous) / in[sample] - in[sorbic_acid] / sorbic_molar_mass);
}

void tell(const Inputs& in, Acidity found, Outcome& out) {
  Table table{.name = "In every basis", .columns = {{"as"}, {"volatile acidity", "g/L", 2}}, .rows = {}};
  for (const auto name : {"acetic acid", "sulfuric acid", "tartaric acid"})
    table.rows.push_back({std::string(name), found.value() / counted_per_kilogram(*find_basis(name))});
  out.tables.push_back(std::move(table));
  out.note("which is " + print(found, "meq/L", 1));
  out.note("drive carbon dioxide off before the distillation; it would be titrated along");
  out.note(
      "steam and hot glass: check the joints and the cooling before you heat, never leave it alone, vent it at the "
      "end");
  if (!(in[iodine_free] > Volume{}) && !(in[iodine_bound] > Volume{}))
    out.note("sulfur dioxide was not titrated in the distillate: what distilled over counts as volatile acidity here");
  out.note(
      "the still recovers 99.5 % of acetic acid or more, and no more than 5 % of lactic acid, or its results read low "
      "or "
      "high: test it");
  out.note("waste goes as local rules say");
}

}  // namespace

Outcome run(const Inputs& in) {
  Outcome out;
  out.reagents = {lab::reagent_of("sodium hydroxide solution", in[titrant_concentration]),
                  lab::reagent_of("iodine solution", in[iodine_concentration]), "phenolphthalein", "tartaric acid"};
  std::vector<double> found;
  for (const Volume& used : lab::titrants_of(in, titrant)) {
    const Acidity one = found_by(in, used);
    if (one < Acidity{})
      throw InputError("the sulfur dioxide and sorbic acid take up more than was titrated: " + print(one, "meq/L", 1),
                       "look at the iodine, its concentration as I2, and the sorbic acid");
    found.push_back(one.value());
  }
  const auto reported = lab::report(found, in[repeatability].value(), volatile_acidity.dimension,
                                    {volatile_acidity.unit, volatile_acidity.decimals}, in, out);
  const auto value = lab::value_of<Acidity>(reported);
  if (!value) return out;
  out.result(volatile_acidity, *value, reported.standard, reported.name);
  out.change(lot::volatile_acidity, *value);
  if (!in.figures_only()) tell(in, *value, out);
  return out;
}

}  // namespace vatwright::assay::volatile_acids
