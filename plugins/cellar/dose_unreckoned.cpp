#include "plugins/cellar/dose_unreckoned.hpp"

#include "plugins/cellar/dose_elsewhere.hpp"
#include "plugins/chemistry/acid_treatment.hpp"
#include "plugins/chemistry/must.hpp"
#include "plugins/lab/acid_agents.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <span>

namespace vatwright::cellar::plain_dose {
namespace {

// What a kilogram of sugar takes up in the must: 13.5 lb in a US gallon (27 CFR 24.181).
constexpr double litres_a_kilogram = 0.618;

// No concentrated must holds more.
constexpr MassConcentration heaviest = 1000.0 * gram_per_litre;

// All of it counted as glucose and fructose.
Strength most_gained(MassConcentration sugar) { return sugar / chemistry::eu_yield_factor; }

bool is_one(std::span<const std::string_view> names, std::string_view id) {
  return std::find(names.begin(), names.end(), id) != names.end();
}

void forget(std::initializer_list<const Input*> facts, Outcome& out) {
  for (const Input* fact : facts) out.forget(*fact);
}

void of_acid(const lab::AcidAgent& acid, MassConcentration dosed, Outcome& out) {
  out.raise(lot::acid_added, chemistry::equivalents(acid.acid, dosed));
  forget({&lot::ph, &lot::titratable_acidity, acid.fact}, out);
}

void of_carbonate(const chemistry::Carbonate& carbonate, MassConcentration dosed, Outcome& out) {
  out.raise(lot::acid_removed, carbonate.base(dosed));
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
  const auto* acid = std::find_if(std::begin(lab::acid_agents), std::end(lab::acid_agents),
                                  [&](const lab::AcidAgent& row) { return row.substance == of.id; });
  const auto* carbonate = std::find_if(chemistry::carbonates.begin(), chemistry::carbonates.end(),
                                       [&](const auto& row) { return row.substance == of.id; });
  const bool sugar = is_one(sugars, of.id) || is_one(sugar_for_wine, of.id) || is_one(must_for_wine, of.id);
  if (acid != std::end(lab::acid_agents))
    of_acid(*acid, dosed, out);
  else if (carbonate != chemistry::carbonates.end())
    of_carbonate(*carbonate, dosed, out);
  else if (sugar && went_in.mass > Mass{}) {
    out.raise(gained_by(of.id), most_gained(dosed));
    pour(in, went_in.mass / kilogram * litres_a_kilogram * litre, out);
  } else if (sugar) {
    out.raise(gained_by(of.id), most_gained(went_in.volume / tank * heaviest));
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
