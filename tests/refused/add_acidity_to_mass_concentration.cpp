// Must not compile: an acidity counts equivalents, not grams.
#include "units/constants.hpp"

namespace {

using namespace vatwright;

[[maybe_unused]] constexpr auto allowed = milliequivalent_per_litre + milliequivalent_per_litre;
[[maybe_unused]] constexpr auto refused = milliequivalent_per_litre + gram_per_litre;

}  // namespace
