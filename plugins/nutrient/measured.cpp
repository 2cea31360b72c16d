#include "plugins/nutrient/measured.hpp"

#include "plugins/chemistry/nitrogen.hpp"
#include "plugins/lab/reagent.hpp"
#include "plugins/nutrient/nitrogen.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

#include <cmath>

namespace vatwright::nutrient::nitrogen {
namespace {

Fraction nitrogen_in(std::string_view counted_as) {
  if (counted_as == as_ammonium) return chemistry::nitrogen_in_ammonium;
  if (counted_as == as_ammonia) return chemistry::nitrogen_in_ammonia;
  return coherent<Fraction>(1);
}

MassConcentration from_parts(const Inputs& in, Outcome& out) {
  if (!in.has(ammonium))
    throw InputError("amino nitrogen is given without ammonium",
                     "assimilable nitrogen is the sum of both; ammonium that was measured as nothing is written as 0");
  if (!in.has(ammonium_as))
    throw InputError("it is not said what ammonium is counted as",
                     "write 'ammonium as: NH4', NH3 or N; the lab slip says it, and up to 29 % hangs on it");
  const MassConcentration of_ammonium = in[ammonium] * nitrogen_in(in[ammonium_as]);
  out.note(fmt::format("ammonium brings {}, amino acids {}", print(of_ammonium, "mg/L as nitrogen", 1),
                       print(in[amino_nitrogen], "mg/L as nitrogen", 1)));
  return in[amino_nitrogen] + of_ammonium;
}

MassConcentration from_formol(const Inputs& in, Outcome& out) {
  if (!in.has(titrant_concentration) || !in.has(sample))
    throw InputError("a formol titration needs 'titrant concentration' and 'sample'",
                     "the sample is the undiluted must in the portion that was titrated");
  out.reagents = {"formaldehyde solution", lab::reagent_of("sodium hydroxide solution", in[titrant_concentration])};
  out.note(
      "the formol titration counts a part of proline, which yeast does not use, and one of the four nitrogens of "
      "arginine: take it as a guide");
  return chemistry::formol_nitrogen(in[titrant], in[titrant_concentration], in[sample]);
}

Fraction need_of_strain(std::string_view strain) {
  if (strain == low) return chemistry::low_nitrogen_need;
  if (strain == high) return chemistry::high_nitrogen_need;
  return chemistry::medium_nitrogen_need;
}

// The table goes by what a must reads before its fermentation.
void compare_with_table(const Inputs& in, const Course& course, MassConcentration need, Outcome& out) {
  if (course.begun || course.second) return;
  const auto solids = in.get(lot::soluble_solids);
  if (!solids || *solids < chemistry::least_tabled_solids || *solids > chemistry::most_tabled_solids) return;
  const MassConcentration tabled = chemistry::tabled_nitrogen_need(*solids);
  constexpr double notable = 0.15;
  out.opinions.push_back({.name = "nitrogen needed by the table of soluble solids",
                          .here = figure(need, "mg/L as nitrogen", 0),
                          .there = figure(tabled, "mg/L as nitrogen", 0),
                          .matters = std::abs((tabled / need).value() - 1) > notable,
                          .source = "Bisson and Butzke 2000 (from memory)"});
}

}  // namespace

MassConcentration measured_nitrogen(const Inputs& in, Outcome& out) {
  const bool formol = in.has(titrant);
  const bool parts = !formol && in.has(amino_nitrogen);
  if (!parts && in.has(ammonium))
    throw InputError("ammonium would be counted twice",
                     formol ? "the formol titration finds ammonium too: leave 'ammonium' out"
                            : "assimilable nitrogen holds it already: leave 'ammonium' out, or give 'amino nitrogen'");
  if (formol) return from_formol(in, out);
  return parts ? from_parts(in, out) : in[lot::assimilable_nitrogen];
}

MassConcentration wanted_nitrogen(const Inputs& in, const Course& course, Outcome& out) {
  if (const auto wanted = in.get(target)) return *wanted;
  if (!course.original)
    throw InputError("neither a target nor the sugar of the must is given",
                     course.begun ? "give 'sugar' as it is today (a refractometer does not read it beside alcohol), or "
                                    "'target nitrogen'"
                                  : "give 'sugar' or 'soluble solids' of the must, or 'target nitrogen'");
  const Fraction per_sugar = need_of_strain(in[strain_need]);
  const MassConcentration need = *course.original * per_sugar;
  out.note(fmt::format("a strain of {} need: {} of nitrogen for each gram of sugar (common practice, no source)",
                       in[strain_need], print(Mass(per_sugar * gram), "mg", 2)));
  if (course.begun)
    out.note(fmt::format(
        "the must began with about {} of sugar, by what is left and its alcohol: the need is that of the whole "
        "fermentation, so that the nitrogen found must be that of the must before it began",
        print(*course.original, "g/L", 0)));
  compare_with_table(in, course, need, out);
  return need;
}

}  // namespace vatwright::nutrient::nitrogen
