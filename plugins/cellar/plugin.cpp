// The plugin cellar: volumes, moves, gas, cooling, filters, bottling, and doses that need no chemistry.
#include "plugins/cellar/bottling.hpp"
#include "plugins/cellar/cooling.hpp"
#include "plugins/cellar/dose.hpp"
#include "plugins/cellar/filtration.hpp"
#include "plugins/cellar/gas.hpp"
#include "plugins/cellar/racking.hpp"
#include "plugins/cellar/tank.hpp"

namespace vatwright::cellar {
namespace {

constexpr Calculation calculations[] = {plain_dose::calculation, tank::calculation,    racking::calculation,
                                        gas::calculation,        cooling::calculation, filtration::calculation,
                                        bottling::calculation};

}  // namespace
}  // namespace vatwright::cellar

VATWRIGHT_PLUGIN("cellar", "0.1.0", "tanks, racking, gas, cooling, filters, bottling, plain doses",
                 vatwright::cellar::calculations);
