// The plugin control: is the laboratory right today?
#include "plugins/control/chart.hpp"
#include "plugins/control/duplicates.hpp"
#include "plugins/control/meter.hpp"
#include "plugins/control/recovery.hpp"
#include "plugins/control/report.hpp"

namespace vatwright::control {
namespace {

constexpr Calculation calculations[] = {duplicates::calculation, chart::calculation, recovery::calculation,
                                        meter::calculation, report::calculation};

}  // namespace
}  // namespace vatwright::control

VATWRIGHT_PLUGIN("control", "0.1.0", "whether the laboratory is right: duplicates, control charts, recovery, pH meter",
                 vatwright::control::calculations);
