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
  bool red = false;
  bool vetted = false;  // drawn around readings that were found to be together (Measured::vetted)
  std::optional<MassConcentration> tartaric{}, malic{}, lactic{}, citric{}, succinic{};
  std::optional<MassConcentration> potassium{}, calcium{}, sodium{}, free_so2{};
  std::optional<Acidity> volatile_acidity{};  // counted as acetic acid
};

// What the acid is taken to be that nobody measured.
struct Assumed {
  std::array<AmountConcentration, acid_count> usual{};  // Measured::usual
  AcidSplit rest{};                                     // Measured::unmeasured
  double times = 0;                                     // how often the usual ones of a wine are taken
};

// A must has tartaric and malic acid, whichever of them was not measured, in equal amounts; when both were, citric
// acid. A wine has the usual acids first (usual_wine.hpp), then those; when both were measured, lactic and succinic
// acid (an assumption, no source).
Assumed usually_unmeasured(const LabAnalysis& analysis);

// The two ends of what it may be: `leaning` 1, the one that buffers most at the pH of wine, or -1, the one that does
// least.
// - neither tartaric nor malic acid measured: the rest is all the one, or all the other;
// - one of them: a wine has none of the usual acids, or twice as much;
// - both: a wine has none of the usual acids, and the rest is lactic, or succinic acid.
// Where nothing is left open both are what it usually is.
Assumed end_of_unmeasured(const LabAnalysis& analysis, double leaning);

// In words: "the usual acids, then tartaric acid and malic acid".
std::string words_of(const LabAnalysis& analysis, const Assumed& assumed);

// Throws InputError for what cannot be together (infer()). `leaning` from -1 to 1 goes from what the unmeasured acids
// usually are, 0, towards one of the two ends.
Inferred infer(const LabAnalysis& analysis, const Medium& medium, double leaning = 0);

}  // namespace vatwright::chemistry
