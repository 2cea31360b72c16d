// The plugin nutrient: what the yeast needs.
#include "plugins/nutrient/nitrogen.hpp"

namespace vatwright::nutrient {
namespace {

constexpr Calculation calculations[] = {nitrogen::calculation};

}  // namespace
}  // namespace vatwright::nutrient

VATWRIGHT_PLUGIN("nutrient", "0.1.0", "yeast nutrients: assimilable nitrogen, need, doses in portions",
                 vatwright::nutrient::calculations);
