// What liquids become when they are put together: volume with contraction, ethanol by mass, density by
// mass, and pH and titratable acidity by the charge balance of all that is dissolved.
//
// Nothing is taken to react, precipitate or boil off. A figure that one part lacks is unknown of the
// whole, and is never guessed. Volumes and strengths are those at 20 °C.
#pragma once

#include "plugins/chemistry/alcoholometry.hpp"
#include "plugins/chemistry/lab_analysis.hpp"

#include <optional>
#include <span>
#include <vector>

namespace vatwright::chemistry {

// One liquid that goes in, as far as it was measured.
struct Part {
  Volume volume;  // above zero; of a prediction by shares, the share of a unit volume
  std::optional<Strength> ethanol{};
  std::optional<Density> density{};
  std::optional<LabAnalysis> acids{};  // where pH and titratable acidity, to its own end point, are known
  Strength taken_ethanol{};            // for the acids alone, where ethanol was not measured
  double leaning = 0;                  // -1 to 1, of its unmeasured acids: end_of_unmeasured()
};

struct Blend {
  Volume volume;                        // of the whole
  std::optional<Volume> contraction{};  // lost of the sum; negative: gained. Unknown without ethanol
  std::optional<Strength> ethanol{};
  std::optional<Density> density{};
  std::optional<Ph> ph{};
  std::optional<Acidity> titratable{};     // to the end point of the parts; unknown when they differ in it
  std::optional<Composition> dissolved{};  // where pH and titratable acidity of each part are known
};

// The liquid in which the acids of a part are dissolved, at 20 °C.
Medium medium_of(const Part& part);

// What is dissolved, so that pH and titratable acidity come out as measured; nothing when they are
// unknown, or the part is stronger than `most_acid_strength`. Throws InputError as infer() does.
// The base that holds it at a pH, base_to(), is what a blend's charge balance adds up.
std::optional<Composition> dissolved_in(const Part& part);

// All parts together. Throws InputError for no part, a volume that is not above zero, figures out of
// their range, and as infer() does.
Blend blend(std::span<const Part> parts);

// The same with what is dissolved in each part worked out before; as many as there are parts.
Blend blend(std::span<const Part> parts, std::span<const std::optional<Composition>> dissolved);

}  // namespace vatwright::chemistry
