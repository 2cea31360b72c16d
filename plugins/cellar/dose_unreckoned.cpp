#include "plugins/cellar/dose_unreckoned.hpp"

#include "plugins/cellar/dose_elsewhere.hpp"
#include "plugins/chemistry/acid_treatment.hpp"
#include "plugins/chemistry/must.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <span>

namespace vatwright::cellar::plain_dose {
namespace {

using chemistry::Acid;

struct OfAcid {
  std::string_view substance;
  Acid acid;
  const Key<MassConcentration>* fact;
};
constexpr OfAcid acid_facts[] = {{"tartaric acid", Acid::tartaric, &lot::tartaric_acid},
                                 {"malic acid", Acid::malic, &lot::malic_acid},
                                 {"lactic acid", Acid::lactic, &lot::lactic_acid},
                                 {"citric acid", Acid::citric, &lot::citric_acid},
                                 {"citric acid monohydrate", Acid::citric, &lot::citric_acid}};

// What a kilogram of sugar takes up in the must: 13.5 lb in a US gallon (27 CFR 24.181).
constexpr double litres_a_kilogram = 0.618;

// No concentrated must holds more.
constexpr MassConcentration heaviest = 1000.0 * gram_per_litre;

// All of it counted as glucose and fructose.
Strength most_gained(MassConcentration sugar) { return sugar / chemistry::eu_yield_factor; }

bool is_one(std::span<const std::string_view> names, std::string_view id) {
  return std::find(names.begin(), names.end(), id) != names.end();
}

template <class Quantity>
void count(const Inputs& in, const Key<Quantity>& account, Quantity more, Outcome& out) {
  out.change(account, Quantity(in.get(account).value_or(Quantity{}) + more));
}

void forget(std::initializer_list<const Input*> facts, Outcome& out) {
  for (const Input* fact : facts) out.forget(*fact);
}

void of_acid(const Inputs& in, const OfAcid& acid, MassConcentration dosed, Outcome& out) {
  count(in, lot::acid_added, chemistry::equivalents(acid.acid, dosed), out);
  forget({&lot::ph, &lot::titratable_acidity, acid.fact}, out);
}

void of_carbonate(const Inputs& in, const chemistry::Carbonate& carbonate, MassConcentration dosed, Outcome& out) {
  count(in, lot::acid_removed, carbonate.base(dosed), out);
  forget({&lot::ph, &lot::titratable_acidity, &lot::tartaric_acid, &lot::malic_acid, &lot::potassium, &lot::calcium},
         out);
}

// The account that sugar of that name goes to.
const Key<Strength>& gained_by(std::string_view id) {
  if (is_one(sugar_for_wine, id) || is_one(must_for_wine, id)) return lot::sweetening_gained;
  return id.starts_with("tirage") ? lot::tirage_gained : lot::strength_gained;
}

void pour(const Inputs& in, Volume more, Outcome& out) {
  const Volume tank = in[lot::volume];
  out.change(lot::volume, Volume(tank + more));
  out.poured = Poured{tank, tank + more};
  forget({&lot::sugar, &lot::soluble_solids, &lot::ethanol, &lot::density, &lot::ph}, out);
}

}  // namespace

void leave_unknown(const Inputs& in, const SubstanceFacts& of, const Given& went_in, Outcome& out) {
  if (!in.has(lot::volume)) return;
  const Volume tank = in[lot::volume];
  const MassConcentration dosed = went_in.mass / tank;
  const auto* acid = std::find_if(std::begin(acid_facts), std::end(acid_facts),
                                  [&](const OfAcid& row) { return row.substance == of.id; });
  const auto* carbonate = std::find_if(chemistry::carbonates.begin(), chemistry::carbonates.end(),
                                       [&](const auto& row) { return row.substance == of.id; });
  const bool sugar = is_one(sugars, of.id) || is_one(sugar_for_wine, of.id) || is_one(must_for_wine, of.id);
  if (acid != std::end(acid_facts))
    of_acid(in, *acid, dosed, out);
  else if (carbonate != chemistry::carbonates.end())
    of_carbonate(in, *carbonate, dosed, out);
  else if (sugar && went_in.mass > Mass{}) {
    count(in, gained_by(of.id), most_gained(dosed), out);
    pour(in, went_in.mass / kilogram * litres_a_kilogram * litre, out);
  } else if (sugar) {
    count(in, gained_by(of.id), most_gained(went_in.volume / tank * heaviest), out);
    pour(in, went_in.volume, out);
  } else {
    return;
  }
  if (!in.figures_only())
    out.note(
        fmt::format("what {} makes of this lot is not reckoned, because too little of the lot is known: no limit "
                    "was checked, and what it moves is not known any more. Measure it first, and the dose is "
                    "answered by the calculation for it ('vatwright show cellar.dose')",
                    of.id));
}

}  // namespace vatwright::cellar::plain_dose
