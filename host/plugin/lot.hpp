// The lot: what a cellar knows of one tank. These keys are the same for every calculation; each
// has one name, one dimension and one valid range. Ranges are guards against slips of the pen
// (common practice, no source), not statements about good wine.
#pragma once

#include "host/plugin/lot_account.hpp"
#include "host/plugin/lot_readings.hpp"
#include "host/plugin/lot_words.hpp"

#include <algorithm>
#include <array>

namespace vatwright::lot {

inline constexpr std::array<const Input*, 47> keys{&volume,
                                                   &temperature,
                                                   &density,
                                                   &soluble_solids,
                                                   &sugar,
                                                   &ethanol,
                                                   &ph,
                                                   &titratable_acidity,
                                                   &endpoint,
                                                   &acid_added,
                                                   &acid_removed,
                                                   &strength_gained,
                                                   &tirage_gained,
                                                   &dosage_gained,
                                                   &liqueur_added,
                                                   &volume_gained,
                                                   &volume_lost,
                                                   &sweetening_gained,
                                                   &amelioration,
                                                   &must_solids,
                                                   &water_added,
                                                   &treated_with,
                                                   &volatile_acidity,
                                                   &tartaric_acid,
                                                   &malic_acid,
                                                   &lactic_acid,
                                                   &citric_acid,
                                                   &succinic_acid,
                                                   &glycerol,
                                                   &potassium,
                                                   &calcium,
                                                   &sodium,
                                                   &copper,
                                                   &free_so2,
                                                   &total_so2,
                                                   &acetaldehyde,
                                                   &assimilable_nitrogen,
                                                   &turbidity,
                                                   &conductivity,
                                                   &absorbance,
                                                   &varieties,
                                                   &vintage,
                                                   &origin,
                                                   &wine_class,
                                                   &colour,
                                                   &stage,
                                                   &zone};

// Those of them that `are` so.
template <auto are>
inline constexpr auto keys_that = [] {
  std::array<const Input*, static_cast<std::size_t>(std::count_if(keys.begin(), keys.end(), are))> some{};
  std::copy_if(keys.begin(), keys.end(), some.begin(), are);
  return some;
}();

constexpr bool is_counted_by_law(const Input* key) { return key->behaves.account == Account::counted; }

}  // namespace vatwright::lot
