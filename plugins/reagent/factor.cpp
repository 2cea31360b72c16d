#include "plugins/reagent/factor.hpp"

#include "plugins/chemistry/statistics/samples.hpp"
#include "plugins/lab/reagent.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

#include <cmath>

namespace vatwright::reagent::factor {
namespace {

// Moles of titrant that one mole of the standard takes up.
struct Pair {
  std::string_view titrant, standard;
  double per_mole;
};
// KHP + NaOH; Na2CO3 + 2 HCl; IO3- + 5 I- + 6 H+ -> 3 I2, and I2 + 2 S2O3 2-.
constexpr Pair pairs[] = {{"sodium hydroxide solution", "potassium hydrogen phthalate", 1},
                          {"sodium hydroxide solution", "hydrochloric acid", 1},
                          {"hydrochloric acid", "sodium carbonate", 2},
                          {"hydrochloric acid", "sodium hydroxide solution", 1},
                          {"sodium thiosulfate", "potassium iodate", 6},
                          {"iodine solution", "sodium thiosulfate", 0.5}};

double per_mole(std::string_view titrant_name, std::string_view standard_name) {
  std::string fitting;
  for (const auto& pair : pairs) {
    if (pair.titrant != titrant_name) continue;
    if (pair.standard == standard_name) return pair.per_mole;
    fitting += (fitting.empty() ? "" : ", ") + std::string(pair.standard);
  }
  throw InputError(std::string(standard_name) + " is no standard for " + std::string(titrant_name),
                   "take one of " + fitting);
}

Amount amount_of_standard(const Inputs& in, const Row& row) {
  const auto of_row = row.get(mass), of_step = in.get(mass);
  const auto poured_row = row.get(standard_volume), poured_step = in.get(standard_volume);
  const bool weighed = of_row || of_step, poured = poured_row || poured_step;
  if (weighed == poured)
    throw InputError(weighed ? "both 'mass' and 'standard volume' are given" : "neither 'mass' nor 'standard volume'",
                     "give the mass of a solid, or the volume of a known solution with 'standard concentration'");
  if (weighed) return (of_row ? *of_row : *of_step) * in[purity] / in[standard].molar_mass;
  const auto known = in.get(standard_concentration);
  if (!known) throw InputError("'standard volume' without 'standard concentration'", "add it, with its ±");
  return (poured_row ? *poured_row : *poured_step) * *known;
}

AmountConcentration found_by(const Inputs& in, const Row& row, double taken_up) {
  const Volume net = row[used] - in[blank];
  if (!(net > Volume{}))
    throw InputError("the blank used as much titrant as the standard", "look whether they are swapped");
  return amount_of_standard(in, row) * taken_up / net;
}

// Of the mean: by the repeatability that is known, else by the scatter.
double own_standard(const Inputs& in, const std::vector<double>& found, double centre) {
  const double root = std::sqrt(static_cast<double>(found.size()));
  if (const auto known = in.get(repeatability)) return known->value() * centre / root;
  return found.size() > 1 ? statistics::scatter(found) / root : 0;
}

void tell(const Inputs& in, const std::vector<double>& found, AmountConcentration mean, Outcome& out) {
  Table table{.name = "Titrations",
              .columns = {{"titration"}, {"concentration", "mol/L", 5}, {"off the mean", "%", 2}},
              .rows = {}};
  for (std::size_t i = 0; i < found.size(); ++i)
    table.rows.push_back({std::to_string(i + 1), found[i], found[i] / mean.value() - 1});
  out.tables.push_back(std::move(table));
  if (const auto far = statistics::outlier(found))
    out.note(
        fmt::format("titration {} lies apart from the others (Grubbs, 5 %): look for the reason and titrate again; "
                    "it is counted in",
                    *far + 1));
  if (found.size() < 3)
    out.note("three titrations or more say how well they repeat; of one alone only 'repeatability' can");
  const double over = mean / in[nominal];
  if (over > 1)
    out.note(fmt::format("to bring it down to its name, add {} of water to each litre that is left",
                         print((over - 1) * litre, "mL", 1)));
  out.note("write factor, date and your name on the bottle; a factor is multiplied, never added");
}

}  // namespace

Outcome run(const Inputs& in) {
  const double taken_up = per_mole(in[titrant].id, in[standard].id);
  std::vector<double> found;
  for (const Row& row : in[titrations]) found.push_back(found_by(in, row, taken_up).value());
  if (found.empty()) throw InputError("no titration", "write such as 'titrations: [{used: 25.00 mL, mass: 0.5105 g}]'");
  const auto centre = coherent<AmountConcentration>(statistics::mean(found));
  const double own = own_standard(in, found, centre.value());
  const std::string_view why = in.has(repeatability) ? "repeatability" : "scatter of the titrations";
  Outcome out;
  out.reagents = {lab::reagent_of(in[titrant].id, in[nominal]), in[standard].id};
  out.result(true_concentration, centre, own, why);
  out.result(found_factor, Fraction(centre / in[nominal]), own / in[nominal].value(), why);
  if (!in.figures_only()) tell(in, found, centre, out);
  return out;
}

}  // namespace vatwright::reagent::factor
