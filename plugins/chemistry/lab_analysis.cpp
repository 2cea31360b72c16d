#include "plugins/chemistry/lab_analysis.hpp"

namespace vatwright::chemistry {

AcidSplit unmeasured_split(const LabAnalysis& a) {
  AcidSplit split{};
  const auto missing = [&](Acid acid, bool known) { split[index(acid)] = known ? 0 : 1; };
  missing(Acid::tartaric, a.tartaric.has_value());
  missing(Acid::malic, a.malic.has_value());
  if (!a.tartaric || !a.malic) return split;
  if (!a.must) {
    missing(Acid::lactic, a.lactic.has_value());
    missing(Acid::succinic, a.succinic.has_value());
    if (!a.lactic || !a.succinic) return split;
  }
  split[index(a.must ? Acid::citric : Acid::succinic)] = 1;
  return split;
}

std::string names_of(const AcidSplit& split) {
  std::string out;
  for (const auto& acid : acids) {
    if (split[index(acid.acid)] == 0) continue;
    if (!out.empty()) out += " and ";
    out += acid.name;
  }
  return out;
}

Inferred infer(const LabAnalysis& a, const Medium& medium) {
  Measured m{.ph = a.ph, .titratable = a.titratable, .endpoint = a.endpoint, .vetted = a.vetted};
  const auto know = [&](auto what, const std::optional<MassConcentration>& mass) {
    if (mass) m.known.add(what, *mass);
  };
  know(Acid::tartaric, a.tartaric);
  know(Acid::malic, a.malic);
  know(Acid::lactic, a.lactic);
  know(Acid::citric, a.citric);
  know(Acid::succinic, a.succinic);
  know(Acid::sulfurous, a.free_so2);
  know(Ion::potassium, a.potassium);
  know(Ion::calcium, a.calcium);
  know(Ion::sodium, a.sodium);
  if (a.volatile_acidity) m.known[Acid::acetic] = charges(*a.volatile_acidity);
  m.unmeasured = unmeasured_split(a);
  return infer(m, medium);
}

}  // namespace vatwright::chemistry
