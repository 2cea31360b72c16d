// How strong a solution is, and the strengths that a hazard class holds at. A class shifts with strength: a weak acid
// irritates, a strong one burns.
#pragma once

#include "host/yaml/document.hpp"
#include "units/dimensions.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <utility>

namespace vatwright {

// By mass, but for spirit, which is told by volume.
struct SolutionStrength {
  double share = 0;
  bool by_volume = false;
};

// "80 % mass", "60 g/L SO2", "0.1 mol/L", "96 % vol"; words may follow. A figure per volume is taken of a solution as
// dense as water: a denser one is weaker, so that the graver class is picked. Nothing for words that hold no strength,
// or an amount of what has no molar mass.
std::optional<SolutionStrength> strength_in(std::string_view words, MolarMass of);

// "sodium hydroxide solution, 0.1 mol/L": what a calculation says of a reagent, and of its strength; empty: nothing.
std::pair<std::string_view, std::string_view> apart_from_strength(std::string_view reagent);

class StrengthRange {
 public:
  StrengthRange() = default;  // at every strength
  // As written in the catalogue, "25 % mass"; an empty text leaves that end open. Throws BadInput.
  StrengthRange(const Document& doc, const Node* from, const Node* below);

  bool everywhere() const { return from_.empty() && below_.empty(); }
  // Where one is counted by mass and the other by volume it may hold, and counts.
  bool holds_at(const SolutionStrength& strength) const;
  // "from 25 % mass", "10 to 25 % mass", "below 8 % mass".
  std::string words() const;

 private:
  std::string from_{}, below_{};
  SolutionStrength least_{}, most_{};
};

}  // namespace vatwright
