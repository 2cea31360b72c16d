#include "plugins/sugar/extract.hpp"

#include "plugins/chemistry/extract.hpp"
#include "plugins/lab/sweetness.hpp"
#include "units/print.hpp"

#include <algorithm>

namespace vatwright::sugar::extract {
namespace {

constexpr MassConcentration counted_as_extract = 1.0 * gram_per_litre;  // of the sugar, OIV-MA-AS2-03B

MassConcentration total_of(const Inputs& in) {
  const Density wine =
      chemistry::extract_density(in[lot::density], in.get(lot::total_so2).value_or(MassConcentration{}),
                                 in.get(lot::volatile_acidity).value_or(Acidity{}));
  return chemistry::total_dry_extract(chemistry::extract_gravity(wine, in[lot::ethanol]));
}

void refuse_more_sugar(MassConcentration extract, MassConcentration sugar) {
  if (sugar <= extract) return;
  throw InputError("the wine has " + print(sugar, "g/L", 1) + " of sugar and only " + print(extract, "g/L", 1) +
                       " of extract, of which the sugar is a part",
                   "measure density, ethanol and sugar on one sample at 20 °C");
}

void write_residual(const Inputs& in, MassConcentration without_sugar, Outcome& out) {
  const auto acidity = in.get(lot::titratable_acidity);
  const auto volatile_part = in.get(lot::volatile_acidity);
  if (!acidity || !volatile_part) {
    out.note("residual extract was not reckoned: it takes titratable acidity and volatile acidity");
    return;
  }
  if (*volatile_part > *acidity)
    throw InputError("volatile acidity is above titratable acidity, of which it is a part", "measure both again");
  const MassConcentration fixed = lab::as_tartaric(*acidity - *volatile_part);
  if (fixed > without_sugar)
    throw InputError("the fixed acidity, " + print(fixed, "g/L", 1) + ", is more than the sugar-free extract, " +
                         print(without_sugar, "g/L", 1) + ", of which it is a part",
                     "measure density, ethanol and acidity on one sample");
  out.result(residual, without_sugar - fixed);
}

}  // namespace

Outcome run(const Inputs& in) {
  const MassConcentration extract = total_of(in);
  Outcome out;
  out.result(total, extract);
  if (const auto sugar = in.get(lot::sugar)) {
    refuse_more_sugar(extract, *sugar);
    out.result(sugar_free, extract - *sugar);
    out.result(reduced, extract - std::max(*sugar - counted_as_extract, MassConcentration{}));
    write_residual(in, extract - *sugar, out);
  } else {
    out.note("sugar was not given: only the total dry extract was reckoned");
  }
  out.note("free the sample of carbon dioxide first; sulfates and other additions are not taken off");
  return out;
}

}  // namespace vatwright::sugar::extract
