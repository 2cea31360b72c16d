// What a laboratory reports of a must or wine, made ready for the inference of the rest.
#pragma once

#include "plugins/chemistry/inference.hpp"

#include <optional>
#include <string>

namespace vatwright::chemistry {

struct LabAnalysis {
  Ph ph;
  Acidity titratable;
  Ph endpoint = oiv_endpoint;
  bool must = false;
  bool vetted = false;  // drawn around readings that were found to be together (Measured::vetted)
  std::optional<MassConcentration> tartaric{}, malic{}, lactic{}, citric{}, succinic{};
  std::optional<MassConcentration> potassium{}, calcium{}, sodium{}, free_so2{};
  std::optional<Acidity> volatile_acidity{};  // counted as acetic acid
};

// What the acid that nobody measured is taken to be (an assumption, no source): tartaric and malic
// acid, whichever of them was not measured, in equal amounts; when both were, citric acid in a must,
// lactic and succinic acid in a wine.
AcidSplit unmeasured_split(const LabAnalysis& analysis);

// The same in words: "tartaric acid and malic acid".
std::string names_of(const AcidSplit& split);

// Throws InputError for what cannot be together (infer()).
Inferred infer(const LabAnalysis& analysis, const Medium& medium);

}  // namespace vatwright::chemistry
