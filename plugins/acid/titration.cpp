#include "plugins/acid/titration.hpp"

#include "plugins/chemistry/composition.hpp"
#include "plugins/chemistry/titration.hpp"
#include "plugins/lab/reagent.hpp"
#include "units/basis.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

namespace vatwright::acid::titration {
namespace {

// One table row a basis: mass concentration of the acid that would take as much base.
void every_basis(Acidity found, Outcome& out) {
  Table table{.name = "In every basis",
              .columns = {{"as"}, {"titratable acidity", "g/L", 2}, {"equivalents", "meq/L", 1}},
              .rows = {}};
  for (const auto& basis : bases()) {
    if (basis.counts != Counts::acid_equivalents) continue;
    table.rows.push_back({std::string(basis.name), found.value() / counted_per_kilogram(basis), found.value()});
  }
  out.tables.push_back(std::move(table));
}

void check_plausible(Acidity found) {
  const double most = lot::titratable_acidity.valid->high * counted_per_kilogram(*find_basis("tartaric acid"));
  if (found.value() > most)
    throw InputError(
        "the titration gives " + print(found, titratable_acidity.unit, 1) + ", more than a must or wine has",
        "look at the titrant concentration (mol/L of sodium hydroxide) and the sample volume");
}

}  // namespace

Outcome run(const Inputs& in) {
  Outcome out;
  std::vector<double> each;
  for (const Volume& used : lab::titrants_of(in, titrant)) {
    // One hydroxide takes up one equivalent.
    const Volume net = chemistry::net_titrant(used, in[blank]);
    each.push_back(chemistry::equivalents(net * in[titrant_concentration] * in[lab::factor] / in[sample]).value());
    check_plausible(coherent<Acidity>(each.back()));
  }
  // Of one titration nobody asks how well it repeats, unless they say so.
  const Acidity limit = in.get(repeatability).value_or(each.size() > 1 ? usual_repeatability : Acidity{});
  const auto reported = lab::report(each, limit.value(), titratable_acidity.dimension,
                                    {titratable_acidity.unit, titratable_acidity.decimals}, in, out);
  const auto value = lab::value_of<Acidity>(reported);
  if (!value) return out;
  const Acidity& found = *value;
  out.result(titratable_acidity, found, reported.standard, reported.name);
  out.change(lot::titratable_acidity, found);
  out.change(lot::endpoint, in[endpoint]);
  if (in.figures_only()) return out;
  out.reagents = {lab::reagent_of("sodium hydroxide solution", in[titrant_concentration])};
  every_basis(found, out);
  out.note(fmt::format(
      "titrated to pH {}: acidities to pH 7.0 and to pH 8.2 are different quantities (above pH 7 phenols and amino "
      "acids titrate too), and no fixed factor turns one into the other",
      in[endpoint]));
  out.note("the sample must be free of carbon dioxide, which would be titrated along");
  out.note("waste goes as local rules say");
  return out;
}

}  // namespace vatwright::acid::titration
