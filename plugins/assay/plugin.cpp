// The plugin assay: from what was read at the laboratory bench to a result.
#include "plugins/assay/calibration.hpp"
#include "plugins/assay/density.hpp"
#include "plugins/assay/enzymatic.hpp"
#include "plugins/assay/reducing.hpp"
#include "plugins/assay/volatile.hpp"

namespace vatwright::assay {
namespace {

constexpr Calculation calculations[] = {volatile_acids::calculation, enzymatic::calculation, reducing::calculation,
                                        calibration::calculation, density::calculation};

}  // namespace
}  // namespace vatwright::assay

VATWRIGHT_PLUGIN("assay", "0.1.0", "raw readings of the laboratory to results", vatwright::assay::calculations);
