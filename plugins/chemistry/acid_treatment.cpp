#include "plugins/chemistry/acid_treatment.hpp"

#include <algorithm>

namespace vatwright::chemistry {
namespace {

// As many as there are of those that were measured, the others from the unmeasured rest.
void take_potassium(Composition& c, AmountConcentration amount) {
  const auto known = std::min(c[Ion::potassium], amount);
  c[Ion::potassium] -= known;
  c.rest -= equivalents(amount - known);
}

}  // namespace

Composition after_carbonate(Composition c, const Carbonate& carbonate, Acidity base, Fraction falling_out) {
  const AmountConcentration brought = charges(base) / static_cast<double>(row(carbonate.cation).charge);
  const AmountConcentration leaving = brought * falling_out;
  c[Acid::tartaric] += charges(base) / carbonate.equivalents * carbonate.tartaric;
  AmountConcentration crystals{};
  if (carbonate.crystals == Crystals::double_salt) {
    const AmountConcentration pairs = std::min({AmountConcentration(leaving / 2.0), c[Acid::tartaric], c[Acid::malic]});
    c[Acid::tartaric] -= pairs;
    c[Acid::malic] -= pairs;
    crystals = 2.0 * pairs;
  }
  const AmountConcentration tartrate = std::min<AmountConcentration>(leaving - crystals, c[Acid::tartaric]);
  c[Acid::tartaric] -= tartrate;
  c[carbonate.cation] += brought - crystals - tartrate;
  return c;
}

Composition after_bitartrate(Composition c, AmountConcentration crystals) {
  const auto amount = std::min(c[Acid::tartaric], crystals);
  c[Acid::tartaric] -= amount;
  take_potassium(c, amount);
  return c;
}

Composition after_malolactic(Composition c, Fraction converted) {
  const AmountConcentration amount = c[Acid::malic] * converted;
  c[Acid::malic] -= amount;
  c[Acid::lactic] += amount;
  return c;
}

}  // namespace vatwright::chemistry
