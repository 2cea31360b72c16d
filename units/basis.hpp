// What a mass is counted as: '5.1 g/L as tartaric acid', '180 mg/L as nitrogen'.
#pragma once

#include "units/atomic_weights.hpp"

#include <span>
#include <string_view>

namespace vatwright {

// Acid bases turn a mass into acid equivalents; nitrogen bases turn it into a mass of nitrogen.
enum class Counts : std::uint8_t { acid_equivalents, nitrogen };

struct Basis {
  std::string_view name;     // as it is written after 'as'
  std::string_view formula;  // of what was weighed
  int per_mole;              // acid equivalents, or nitrogen atoms, in one mole of it
  Counts counts;
};

std::span<const Basis> bases();

// nullptr when there is none of that name.
const Basis* find_basis(std::string_view name);

// Acid equivalents in a kilogram (eq/kg), or kilograms of nitrogen in a kilogram (1).
double counted_per_kilogram(const Basis& basis);

}  // namespace vatwright
