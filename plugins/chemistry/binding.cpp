#include "plugins/chemistry/binding.hpp"

#include "plugins/chemistry/bracketed.hpp"

namespace vatwright::chemistry {

MassConcentration bound_to(const BindingCompound& compound, MassConcentration total_compound,
                           MassConcentration free_so2, Fraction molecular_share) {
  const AmountConcentration bisulfite = free_so2 * (1 - molecular_share.value()) / so2_molar_mass;
  const AmountConcentration sites = total_compound / compound.molar_mass;
  return sites * (bisulfite / (bisulfite + compound.dissociation)) * so2_molar_mass;
}

MassConcentration bound_so2(const Binders& binders, MassConcentration free_so2, Fraction molecular_share) {
  const auto by = [&](const BindingCompound& compound, MassConcentration total) {
    return bound_to(compound, total, free_so2, molecular_share);
  };
  return by(acetaldehyde, binders.acetaldehyde) + by(pyruvic_acid, binders.pyruvic_acid) +
         by(oxoglutaric_acid, binders.oxoglutaric_acid) + by(glucose, binders.glucose);
}

MassConcentration free_so2(const Binders& binders, MassConcentration total_so2, Fraction molecular_share) {
  // Free plus bound rises with free: it is at most the total at none, at least the total at all.
  const auto excess = [&](double share) {
    const MassConcentration guess = share * total_so2;
    return (guess + bound_so2(binders, guess, molecular_share) - total_so2).value();
  };
  return kernel::bracketed_root(excess, 0, 1) * total_so2;
}

}  // namespace vatwright::chemistry
