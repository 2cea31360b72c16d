#include "plugins/reagent/solution.hpp"

#include "plugins/lab/reagent.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

namespace vatwright::reagent::solution {
namespace {

void measure_stock(const Inputs& in, Mass pure, Outcome& out) {
  const auto share = in.get(mass_fraction);
  const auto density = in.get(stock_density);
  if (!share || !density)
    throw InputError("a stock by volume needs both 'mass fraction' and 'stock density'",
                     "both stand on the label of the acid; leave both out to weigh a solid");
  const auto held = coherent<MassConcentration>(share->value() * density->value());  // of the reagent in the stock
  const Volume measured = pure / held;
  const AmountConcentration strong = held / in[reagent].molar_mass;
  if (measured > in[make_up_to])
    throw InputError("the stock has " + print(strong, "mol/L", 3) + ", less than is wanted",
                     "ask for a weaker solution, or take a stronger stock");
  out.result(stock_volume, measured);
  out.result(stock_concentration, strong);
  out.task(fmt::format("pour {} of the stock slowly into about {} of water, let it cool, then make up to {}",
                       print(measured, "mL", 2), print(in[make_up_to] * 0.6, "mL", 0), print(in[make_up_to], "mL", 0)));
}

}  // namespace

Outcome run(const Inputs& in) {
  const SubstanceFacts& what = in[reagent];
  const Mass pure = in[concentration] * in[make_up_to] * what.molar_mass;
  const Mass weighed = pure / in[purity];
  Outcome out;
  const auto stock = in.get(mass_fraction);
  out.reagents = {stock ? lab::reagent_of(what.id, *stock) : what.id};
  out.result(mass, weighed);
  if (in.has(mass_fraction) || in.has(stock_density))
    measure_stock(in, pure, out);
  else
    out.task(fmt::format("weigh {} of {}, dissolve, make up to {} with water at the flask's temperature",
                         print(weighed, "g", 4), what.id, print(in[make_up_to], "mL", 0)));
  if (in.figures_only()) return out;
  out.note(fmt::format("molar mass {:.6g} g/mol, as {}", what.molar_mass / gram_per_mole, what.formula));
  out.note("a titrant made from what takes up water or air is near its strength only: standardise it (reagent.factor)");
  out.note("write name, concentration, date and your name on the bottle; waste goes as local rules say");
  return out;
}

}  // namespace vatwright::reagent::solution
