// Must not compile: a mass and a volume do not add.
#include "units/constants.hpp"

namespace {

using namespace vatwright;

[[maybe_unused]] constexpr auto allowed = gram + kilogram;
[[maybe_unused]] constexpr auto refused = gram + litre;

}  // namespace
