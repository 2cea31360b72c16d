// The plugin cold: tartrate and protein stability before bottling.
#include "plugins/cold/calcium.hpp"
#include "plugins/cold/conductivity.hpp"
#include "plugins/cold/protein.hpp"
#include "plugins/cold/tartrate.hpp"
#include "plugins/cold/treatment.hpp"

namespace vatwright::cold {
namespace {

constexpr Calculation calculations[] = {tartrate::calculation, conductivity::calculation, calcium::calculation,
                                        treatment::calculation, protein::calculation};

}  // namespace
}  // namespace vatwright::cold

VATWRIGHT_PLUGIN("cold", "0.1.0", "tartrate and protein stability: crystals, tests, treatments, bentonite",
                 vatwright::cold::calculations);
