#include "host/recipe/together.hpp"

#include "units/error.hpp"
#include "units/print.hpp"

namespace vatwright {

void check_together(const Value* free_so2, const Value* total_so2) {
  if (free_so2 == nullptr || total_so2 == nullptr || free_so2->number <= total_so2->number) return;
  throw InputError("free SO2 of " + print(MassConcentration::from_value(free_so2->number), "mg/L", 1) +
                       " is above total SO2 of " + print(MassConcentration::from_value(total_so2->number), "mg/L", 1),
                   "total includes free: check which is which on the lab slip");
}

}  // namespace vatwright
