// The plugin acid: acidity measured, raised, lowered and foretold.
#include "plugins/acid/addition.hpp"
#include "plugins/acid/curve.hpp"
#include "plugins/acid/malolactic.hpp"
#include "plugins/acid/reduction.hpp"
#include "plugins/acid/titration.hpp"

namespace vatwright::acid {
namespace {

constexpr Calculation calculations[] = {titration::calculation, addition::calculation, reduction::calculation,
                                        malolactic::calculation, curve::calculation};

}  // namespace
}  // namespace vatwright::acid

VATWRIGHT_PLUGIN("acid", "0.1.0", "acidity: titrations, additions, reductions, malolactic conversion, curves",
                 vatwright::acid::calculations);
