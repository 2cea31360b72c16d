// The plugin blend: lots chosen and joined, bench trials scaled up, and volumes.
#include "plugins/blend/design/design.hpp"
#include "plugins/blend/mix.hpp"
#include "plugins/blend/scale.hpp"
#include "plugins/blend/volume.hpp"

namespace vatwright::blend {
namespace {

constexpr Calculation calculations[] = {mix::calculation, design::calculation, scale::calculation,
                                        volumes::calculation};

}  // namespace
}  // namespace vatwright::blend

VATWRIGHT_PLUGIN("blend", "0.1.0", "lots chosen and joined, bench trials scaled up, volumes",
                 vatwright::blend::calculations);
