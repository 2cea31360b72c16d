#include "plugins/chemistry/lab_analysis.hpp"

#include "plugins/chemistry/usual_wine.hpp"

#include <cmath>
#include <initializer_list>

namespace vatwright::chemistry {
namespace {

bool measured(const LabAnalysis& a, Acid acid) {
  switch (acid) {
    case Acid::tartaric:
      return a.tartaric.has_value();
    case Acid::malic:
      return a.malic.has_value();
    case Acid::lactic:
      return a.lactic.has_value();
    case Acid::citric:
      return a.citric.has_value();
    case Acid::succinic:
      return a.succinic.has_value();
    case Acid::acetic:
      return a.volatile_acidity.has_value();
    default:
      return true;
  }
}

// Those of them that were not measured, in equal amounts; none when all were.
AcidSplit unmeasured_of(const LabAnalysis& a, std::initializer_list<Acid> acids_in_question) {
  AcidSplit split{};
  for (const Acid acid : acids_in_question)
    if (!measured(a, acid)) split[index(acid)] = 1;
  return split;
}

bool any(const AcidSplit& split) {
  for (const double share : split)
    if (share > 0) return true;
  return false;
}

AcidSplit all(Acid acid) {
  AcidSplit split{};
  split[index(acid)] = 1;
  return split;
}

AcidSplit usual_rest(const LabAnalysis& a) {
  const AcidSplit first = unmeasured_of(a, {Acid::tartaric, Acid::malic});
  if (any(first)) return first;
  if (a.must) return all(Acid::citric);
  const AcidSplit second = unmeasured_of(a, {Acid::lactic, Acid::succinic});
  return any(second) ? second : all(Acid::succinic);
}

std::array<AmountConcentration, acid_count> usual_background(const LabAnalysis& a, double times) {
  std::array<AmountConcentration, acid_count> out{};
  if (a.must) return out;
  for (const auto& usual : usual_acids)
    if (!measured(a, usual.acid))
      out[index(usual.acid)] = times * (a.red ? usual.in_red : usual.in_other) / row(usual.acid).molar_mass;
  return out;
}

Inferred infer(const LabAnalysis& a, const Medium& medium, const Assumed& unmeasured) {
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
  m.usual = unmeasured.usual;
  m.unmeasured = unmeasured.rest;
  return infer(m, medium);
}

}  // namespace

Assumed usually_unmeasured(const LabAnalysis& analysis) {
  return {usual_background(analysis, 1), usual_rest(analysis), 1};
}

Assumed end_of_unmeasured(const LabAnalysis& a, double leaning) {
  const bool most = leaning > 0, tartaric = measured(a, Acid::tartaric), malic = measured(a, Acid::malic);
  if (!tartaric && !malic) return {usual_background(a, 1), all(most ? Acid::tartaric : Acid::malic), 1};
  if (a.must) return {{}, most || (tartaric && malic) ? usual_rest(a) : all(Acid::citric), 0};
  if (tartaric && malic && !measured(a, Acid::lactic) && !measured(a, Acid::succinic))
    return {{}, all(most ? Acid::lactic : Acid::succinic), 0};
  const double times = most ? 0 : 2;
  return {usual_background(a, times), usual_rest(a), times};
}

std::string words_of(const LabAnalysis& a, const Assumed& assumed) {
  std::string out;
  if (!a.must)
    out = assumed.times == 0   ? "none of the usual acids, "
          : assumed.times == 1 ? "the usual acids, then "
                               : "twice the usual acids, then ";
  bool first = true;
  for (const auto& acid : acids) {
    if (assumed.rest[index(acid.acid)] == 0) continue;
    if (!first) out += " and ";
    first = false;
    out += acid.name;
  }
  return out;
}

Inferred infer(const LabAnalysis& a, const Medium& medium, double leaning) {
  Inferred usual = infer(a, medium, usually_unmeasured(a));
  if (leaning == 0) return usual;
  const Inferred end = infer(a, medium, end_of_unmeasured(a, leaning));
  // At a held pH charge and acidity are linear in the shares, but for the activities: what is in between has the same
  // pH and, to a hair, the same acidity.
  Composition& c = usual.composition;
  c = blend(c, end.composition, coherent<Fraction>(std::abs(leaning)));
  c.rest = {};
  c.rest = base_to(c, a.ph, medium);
  usual.rest = c.rest;
  return usual;
}

}  // namespace vatwright::chemistry
