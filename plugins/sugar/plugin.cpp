// The plugin sugar: sugar and alcohol measured, reckoned and added.
#include "plugins/sugar/alcohol.hpp"
#include "plugins/sugar/concentration.hpp"
#include "plugins/sugar/convert.hpp"
#include "plugins/sugar/dosage.hpp"
#include "plugins/sugar/enrichment.hpp"
#include "plugins/sugar/extract.hpp"
#include "plugins/sugar/fermentation.hpp"
#include "plugins/sugar/fortification.hpp"
#include "plugins/sugar/sweetening.hpp"
#include "plugins/sugar/water.hpp"

namespace vatwright::sugar {
namespace {

constexpr Calculation calculations[] = {convert::calculation, enrichment::calculation, fermentation::calculation,
                                        alcohol::calculation, extract::calculation,    fortification::calculation,
                                        dosage::calculation,  sweetening::calculation, concentration::calculation,
                                        water::calculation};

}  // namespace
}  // namespace vatwright::sugar

VATWRIGHT_PLUGIN("sugar", "0.1.0",
                 "sugar and alcohol: scales, enrichment, fermentation, strength, extract, fortification, dosage, "
                 "sweetening, concentration, water",
                 vatwright::sugar::calculations);
