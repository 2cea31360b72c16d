// The gas that a must gives off, by its name in the catalogue: handled wherever sugar ferments or must
// lies on skins, so that its cautions stand on the sheet.
#pragma once

#include <string_view>

namespace vatwright::lab {

inline constexpr std::string_view gas_of_fermentation = "gas of fermentation";
inline constexpr std::string_view gives_off_gas[] = {gas_of_fermentation};  // of a calculation with no other reagent

}  // namespace vatwright::lab
