// The plugin pink: the decisions of a pink wine that are taken in hours.
#include "plugins/pink/colour.hpp"
#include "plugins/pink/contact.hpp"

namespace vatwright::pink {
namespace {

constexpr Calculation calculations[] = {contact::calculation, colour::calculation};

}  // namespace
}  // namespace vatwright::pink

VATWRIGHT_PLUGIN("pink", "0.1.0", "pink wine: time on skins, bleeding, colour, picking, press fractions",
                 vatwright::pink::calculations);
