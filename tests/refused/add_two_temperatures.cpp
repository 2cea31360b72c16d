// Must not compile: two temperatures do not add; a temperature and a difference do.
#include "units/constants.hpp"

namespace {

using namespace vatwright;

[[maybe_unused]] constexpr auto allowed = celsius(16) + 4.0 * kelvin;
[[maybe_unused]] constexpr auto refused = celsius(16) + celsius(4);

}  // namespace
