// Readings of a must that were taken away from 20 °C, and what read them.
#pragma once

#include "plugins/sugar/keys.hpp"

#include <optional>
#include <string_view>

namespace vatwright::sugar {

inline constexpr Source refractometer_table{.title = "OIV-MA-AS2-02", .place = "table 1, 5 to 20 °C"};
inline constexpr Source hydrometer_glass{.title = "OIML R 44, soda glass 25e-6 /K", .standing = "from memory"};

inline constexpr std::string_view corrected = "corrected";
inline constexpr std::string_view refractometer = "refractometer";
inline constexpr std::string_view glass_hydrometer = "hydrometer";
inline constexpr std::string_view density_meter = "density meter";
inline constexpr std::string_view instruments[] = {corrected, refractometer, glass_hydrometer, density_meter};
inline constexpr Choice instrument{
    {.name = "instrument",
     .help = "what read it away from 20 °C without a correction of its own; 'corrected': the figure is for 20 °C",
     .choices = instruments,
     .source = refractometer_table}};

bool away_from_20(Temperature t);

// Whether the lot is stated to have more alcohol than a must has before it ferments: its density says
// nothing of its sugar then.
bool has_alcohol(const Inputs& in);

// What read it at the lot's temperature; empty for a figure that is for 20 °C: it was read there, or
// is said to be corrected, or nothing is said.
std::string_view raw_instrument(const Inputs& in);

// The lot's temperature, when it is more than 2 °C away from 20 and nothing says whether a reading was
// corrected. A figure is then taken as it stands, and the sheet says what hangs on it.
std::optional<Temperature> unsaid_temperature(const Inputs& in);

// What is dissolved, as sucrose, by a reading at `t`; `by` as from raw_instrument. Throws InputError for
// an instrument that reads no such thing, and for a density that no must has.
MassFraction from_solids(MassFraction reading, std::string_view by, Temperature t);
MassFraction from_density(Density reading, std::string_view by, Temperature t);
[[noreturn]] void refuse_instrument(std::string_view reading, std::string_view by);

// The sugar by a correction; nothing where the correction is not known, or leads to no must.
template <class Correction>
std::optional<MassConcentration> where_known(Correction sugar) {
  try {
    return sugar();
  } catch (const InputError&) {
    return std::nullopt;
  }
}

// The note that an unsaid temperature gets. `error`: how much more sugar there is when `tool` showed
// the figure there; nothing where no correction is known.
void note_unsaid(Temperature t, std::string_view figure, std::string_view tool, std::optional<MassConcentration> error,
                 Outcome& out);

}  // namespace vatwright::sugar
