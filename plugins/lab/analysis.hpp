// The lot as a laboratory knows it, read into the words of the acid-base engine: one reader for every
// plugin. It stands here, so that plugins/chemistry stays without the host.
#pragma once

#include "host/plugin/lot.hpp"
#include "host/plugin/outcome.hpp"
#include "plugins/chemistry/lab_analysis.hpp"
#include "plugins/chemistry/usual_wine.hpp"
#include "units/print.hpp"

namespace vatwright::lab {

// As its stage says; without one it is a wine, unless it has less than 1 % vol of ethanol (common
// practice, no source).
inline bool is_must(const Readings& lot) {
  if (lot.has(lot::stage)) return lot[lot::stage] == "must";
  return lot.get(lot::ethanol).value_or(chemistry::usual_strength) < 1.0 * percent_vol;
}

// What is taken where ethanol was not measured.
inline Strength usual_ethanol(const Readings& lot) { return is_must(lot) ? Strength{} : chemistry::usual_strength; }

inline Strength ethanol(const Readings& lot) { return lot.get(lot::ethanol).value_or(usual_ethanol(lot)); }

// The end point is 7.0 where the lot says nothing. pH and titratable acidity must be there.
inline chemistry::LabAnalysis analysis(const Readings& lot) {
  return {.ph = lot[lot::ph],
          .titratable = lot[lot::titratable_acidity],
          .endpoint = lot::ph_of_endpoint(lot.get(lot::endpoint)),
          .must = is_must(lot),
          .red = lot.get(lot::colour) == "red",
          .tartaric = lot.get(lot::tartaric_acid),
          .malic = lot.get(lot::malic_acid),
          .lactic = lot.get(lot::lactic_acid),
          .citric = lot.get(lot::citric_acid),
          .succinic = lot.get(lot::succinic_acid),
          .potassium = lot.get(lot::potassium),
          .calcium = lot.get(lot::calcium),
          .sodium = lot.get(lot::sodium),
          .free_so2 = lot.get(lot::free_so2),
          .volatile_acidity = lot.get(lot::volatile_acidity)};
}

// Says so where the inference took less of the acids than was given.
inline void note_scaling(const chemistry::Inferred& found, const std::string& of_lot, Outcome& out) {
  if (found.kept < coherent<Fraction>(1))
    out.note("the acids given" + of_lot +
             " titrate to more than the titratable acidity, within what laboratories differ by: the model takes " +
             print(found.kept, "%", 1) + " of each, so that it has the acidity that was measured");
}

}  // namespace vatwright::lab
