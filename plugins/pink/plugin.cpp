// The plugin pink: the decisions of a pink wine that are taken in hours.
#include "plugins/pink/bleed.hpp"
#include "plugins/pink/colour.hpp"
#include "plugins/pink/contact.hpp"
#include "plugins/pink/harvest.hpp"
#include "plugins/pink/press.hpp"

namespace vatwright::pink {
namespace {

constexpr Calculation calculations[] = {contact::calculation, bleed::calculation, colour::calculation,
                                        harvest::calculation, press::calculation};

}  // namespace
}  // namespace vatwright::pink

VATWRIGHT_PLUGIN("pink", "0.1.0", "pink wine: time on skins, bleeding, colour, picking, press fractions",
                 vatwright::pink::calculations);
