// The plugin blend: lots joined, bench trials scaled up, and volumes.
#include "plugins/blend/design/design.hpp"
#include "plugins/blend/mix.hpp"

namespace vatwright::blend {
namespace {

constexpr Calculation calculations[] = {mix::calculation, design::calculation};

}  // namespace
}  // namespace vatwright::blend

VATWRIGHT_PLUGIN("blend", "0.1.0", "lots joined, bench trials scaled up, volumes", vatwright::blend::calculations);
