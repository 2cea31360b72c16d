// The plugin sulfite: sulfur dioxide measured, reckoned and added.
#include "plugins/sulfite/addition.hpp"
#include "plugins/sulfite/binding.hpp"
#include "plugins/sulfite/molecular.hpp"
#include "plugins/sulfite/titration.hpp"

namespace vatwright::sulfite {
namespace {

constexpr Calculation calculations[] = {molecular::calculation, addition::calculation, binding::calculation,
                                        titration::calculation};

}  // namespace
}  // namespace vatwright::sulfite

VATWRIGHT_PLUGIN("sulfite", "0.1.0", "sulfur dioxide: molecular share, additions, binding, titrations",
                 vatwright::sulfite::calculations);
