#include "plugins/chemistry/allowance.hpp"

#include "units/error.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

namespace vatwright::chemistry {

void check_total(std::string_view substance, MassConcentration total, MassConcentration most) {
  if (total <= most) return;
  throw InputError(
      fmt::format("{} of {} in all, with what was added before", print(total.value(), "g/L", 0), substance),
      fmt::format("no wine is given more than {}: look at the figures and their units, and at 'treated "
                  "with'",
                  print(most.value(), "g/L", 0)));
}

}  // namespace vatwright::chemistry
