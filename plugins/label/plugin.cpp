// The plugin label: what the label says of a wine.
#include "plugins/label/ingredients.hpp"
#include "plugins/label/nutrition.hpp"
#include "plugins/label/strength.hpp"

namespace vatwright::label {
namespace {

constexpr Calculation calculations[] = {nutrition::calculation, strength::calculation, ingredients::calculation};

}  // namespace
}  // namespace vatwright::label

VATWRIGHT_PLUGIN("label", "0.1.0", "what the label says: nutrition, strength, ingredients",
                 vatwright::label::calculations);
