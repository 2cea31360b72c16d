#include "plugins/lab/allowance.hpp"

#include "host/facts/account.hpp"
#include "units/error.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

namespace vatwright::lab {

void check_total(const Readings& lot, std::string_view substance, MassConcentration more) {
  constexpr MassConcentration most = lot::treated_with.valid->high * milligram_per_litre;
  const MassConcentration total = added_before(lot, substance) + more;
  if (total <= most) return;
  throw InputError(
      fmt::format("{} of {} in all, with what was added before", print(total.value(), "g/L", 0), substance),
      fmt::format("no wine is given more than {}: look at the figures and their units, and at 'treated "
                  "with'",
                  print(most.value(), "g/L", 0)));
}

void note_none_added_before(const Readings& lot, Outcome& out) {
  if (const auto silent = facts::silent_on(lot, lot::treated_with); !silent.empty())
    out.note(fmt::format("what was added before counts too; {} under 'treated with', which is taken as none",
                         facts::states_nothing(silent)));
}

}  // namespace vatwright::lab
