#include "plugins/acid/plan.hpp"

#include "plugins/chemistry/bracketed.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace vatwright::acid::reduction {

Fraction Plan::part(MassConcentration added) const {
  if (!in_part) return coherent<Fraction>(1);
  return std::min<Fraction>(carbonate->base(added) / *in_part, coherent<Fraction>(1));
}

chemistry::Composition Plan::treated_part() const {
  return chemistry::after_carbonate(wine, *carbonate, *in_part, falling_out);
}

chemistry::Composition Plan::after(MassConcentration added, Fraction falling) const {
  if (!in_part) return chemistry::after_carbonate(wine, *carbonate, carbonate->base(added), falling);
  return chemistry::blend(wine, chemistry::after_carbonate(wine, *carbonate, *in_part, falling), part(added));
}

Acidity base_to_floor(const Wine& wine, const chemistry::Carbonate& carbonate, Fraction falling_out) {
  using chemistry::double_salt_floor;
  const auto missing = [&](double base) {
    const auto part = chemistry::after_carbonate(wine.composition, carbonate, coherent<Acidity>(base), falling_out);
    return chemistry::base_to(part, double_salt_floor, wine.medium).value();
  };
  return coherent<Acidity>(chemistry::kernel::bracketed_root(missing, 0, wine.titratable.value()));
}

Acidity base_leaving(const Wine& wine, const chemistry::Carbonate& carbonate, Fraction falling_out, Acidity left) {
  if (!(left < wine.titratable))
    throw InputError("the treated part cannot keep " + print(left, titratable_after.unit, 2) +
                         ": the lot has no more than " + print(wine.titratable, titratable_after.unit, 2),
                     "give a smaller 'acidity left'");
  const auto part = [&](Acidity base) {
    return chemistry::after_carbonate(wine.composition, carbonate, base, falling_out);
  };
  constexpr Ph meter = 0.01 * ph_unit;
  const Acidity base = wine.titratable - left;
  const Ph ph = chemistry::equilibrium(part(base), wine.medium).ph;
  if (ph >= chemistry::double_salt_floor - meter) return base;
  const Acidity most = titratable(wine, part(base_to_floor(wine, carbonate, falling_out)));
  throw InputError(
      fmt::format("a treated part that keeps {} has pH {}, and malic acid falls out with the calcium only "
                  "above pH {}",
                  print(left, titratable_after.unit, 2), print_number(ph.value(), 2),
                  print_number(chemistry::double_salt_floor.value(), 1)),
      fmt::format("leave 'acidity left' out, or make it at most {}", print(most, titratable_after.unit, 2)));
}

}  // namespace vatwright::acid::reduction
