// The plugin reagent: solutions and titrants of the laboratory.
#include "plugins/reagent/dilution.hpp"
#include "plugins/reagent/factor.hpp"
#include "plugins/reagent/solution.hpp"

namespace vatwright::reagent {
namespace {

constexpr Calculation calculations[] = {solution::calculation, dilution::calculation, factor::calculation};

}  // namespace
}  // namespace vatwright::reagent

VATWRIGHT_PLUGIN("reagent", "0.1.0", "solutions, dilutions and titrants of the laboratory",
                 vatwright::reagent::calculations);
