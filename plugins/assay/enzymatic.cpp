#include "plugins/assay/enzymatic.hpp"

#include "units/atomic_weights.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

namespace vatwright::assay::enzymatic {
namespace {

// r = limit + share x content, both between two results of one sample in one laboratory.
struct Method {
  std::string_view analyte, formula;
  Volume final_volume, sample;
  bool uses_coenzyme;  // it is used up: the absorbance falls
  MassConcentration limit;
  double limit_share;
  const Key<MassConcentration>* of_lot;
};
// OIV-MA-AS311-02, MA-AS313-11, -07, -09 (from memory).
const Method methods[] = {{"glucose", "C6H12O6", 2.92 * millilitre, 0.20 * millilitre, false, {}, 0.056, nullptr},
                          {"fructose", "C6H12O6", 2.94 * millilitre, 0.20 * millilitre, false, {}, 0.056, nullptr},
                          {"malic acid", "C4H6O5", 2.22 * millilitre, 0.10 * millilitre, false, 0.03 * gram_per_litre,
                           0.034, &lot::malic_acid},
                          {"lactic acid", "C3H6O3", 2.24 * millilitre, 0.10 * millilitre, false, 0.02 * gram_per_litre,
                           0.07, &lot::lactic_acid},
                          {"citric acid", "C6H8O7", 3.14 * millilitre, 0.20 * millilitre, true, 0.014 * gram_per_litre,
                           0, &lot::citric_acid}};

const Method& method_of(std::string_view name) {
  for (const auto& method : methods)
    if (method.analyte == name) return method;
  throw std::logic_error("an analyte without a method");
}

// L/(mmol cm): the set of the OIV methods (from memory); 6.22 at 340 nm is also in use.
struct Lamp {
  std::string_view wavelength;
  double absorptivity;
};
constexpr Lamp lamps[] = {{"340 nm", 6.3}, {"334 nm", 6.2}, {"365 nm", 3.4}};

Absorptivity absorptivity_of(const Inputs& in) {
  if (const auto given = in.get(absorptivity)) return *given;
  for (const auto& lamp : lamps)
    if (lamp.wavelength == in[wavelength])
      return lamp.absorptivity * coherent<Absorbance>(1) / (millimole_per_litre * coherent<Length>(0.01));
  throw std::logic_error("a wavelength without absorptivity");
}

Absorbance change_in(const Inputs& in, const Row& row, const Method& method) {
  const Absorbance rise = (row[row_after] - row[row_before]) - (in[blank_after] - in[blank_before]);
  return method.uses_coenzyme ? -1.0 * rise : rise;
}

MassConcentration found_by(const Inputs& in, Absorbance change, const Method& method) {
  const Volume all = in.get(final_volume).value_or(method.final_volume);
  const Volume taken = in.get(cell_sample).value_or(method.sample);
  if (taken >= all) throw InputError("the sample is as much as the whole cell", "look whether the volumes are swapped");
  return change / (absorptivity_of(in) * in[path]) * (all / taken) * in[dilution] * molar_mass(method.formula);
}

MassConcentration limit_of(const Inputs& in, const Method& method, MassConcentration about) {
  return in.get(repeatability).value_or(method.limit + about * method.limit_share);
}

void check_range(Absorbance most, Outcome& out) {
  constexpr Absorbance trusted = coherent<Absorbance>(0.5);
  const bool holds = most <= trusted;
  out.checks.push_back({.name = "change of absorbance that is trusted",
                        .holds = holds,
                        .value = figure(most, "AU", 3),
                        .limit = figure(trusted, "AU", 3),
                        .relation = "at most",
                        .source = std::string(decree.title),
                        .remedy = holds ? "" : "dilute the sample and read it again"});
}

}  // namespace

Outcome run(const Inputs& in) {
  const Method& method = method_of(in[analyte]);
  Outcome out;
  std::vector<double> found;
  Absorbance most{};
  for (const Row& row : in[readings]) {
    const Absorbance change = change_in(in, row, method);
    if (change < Absorbance{})
      throw InputError(fmt::format("the absorbance goes the wrong way by {}", print(-1.0 * change, "AU", 3)),
                       method.uses_coenzyme ? "for citric acid it falls: look whether before and after are swapped"
                                            : "it rises: look whether before and after are swapped, and at the blank");
    most = std::max(most, change);
    found.push_back(found_by(in, change, method).value());
  }
  if (found.empty()) throw InputError("no reading", "write such as 'readings: [{before: 0.210 AU, after: 0.460 AU}]'");
  const auto limit = limit_of(in, method, coherent<MassConcentration>(found.front()));
  const auto reported = lab::report(found, limit.value(), content.dimension, {content.unit, content.decimals}, in, out);
  check_range(most, out);
  const auto value = lab::value_of<MassConcentration>(reported);
  if (!value) return out;
  out.result(content, *value, reported.standard, reported.name);
  if (method.of_lot != nullptr) out.change(*method.of_lot, *value);
  if (in.figures_only()) return out;
  out.note(fmt::format("absorptivity {} at {}; the sets in use differ by 1.3 %",
                       print(absorptivity_of(in), absorptivity.unit, 2), in[wavelength]));
  if (method.of_lot == nullptr)
    out.note("sugar of the lot is glucose and fructose together: add the two and write it there");
  out.note("an enzyme finds one form alone (the L form of malic and lactic acid)");
  return out;
}

}  // namespace vatwright::assay::enzymatic
