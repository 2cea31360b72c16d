#include "plugins/sulfite/molecular.hpp"

#include "plugins/chemistry/sulfite.hpp"
#include "plugins/lab/in_the_tank.hpp"
#include "plugins/sulfite/chart.hpp"
#include "plugins/sulfite/state.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

namespace vatwright::sulfite::molecular {

namespace {

// A cold tank has a higher pH than the laboratory reads, and a lower pK1.
void tell_in_the_tank(const Inputs& in, MassConcentration here, Outcome& out) {
  const auto tank = lab::in_the_tank(in);
  if (!tank) return;
  out.note(
      fmt::format("in the tank, at {}, the pH is {} and {} is molecular, where the laboratory has {} (constants of "
                  "the acids and of sulfur dioxide by temperature; usual targets are meant as the laboratory reads)",
                  print(tank->temperature, "°C", 0), print_number(tank->ph.value(), 2),
                  print(here * tank->molecular_change, "mg/L", 2), print(here, "mg/L", 2)));
}

}  // namespace

Outcome run(const Inputs& in) {
  const Readings read = read_so2(in);
  const auto free_so2 = read.free.value();

  Outcome out;
  const auto used = chosen_pk1(in, out);
  const auto part = chemistry::molecular_share(in[lot::ph], used.value);
  out.result(pk1_used, used.value);
  out.result(molecular_so2, free_so2 * part);
  out.result(share, part);
  compare_molecular(in, free_so2, used, out);
  if (!in.figures_only()) tell_in_the_tank(in, free_so2 * part, out);
  draw_molecular(in, used, {{"this lot", free_so2}}, out);
  check_limits(in, free_so2, read.total, out);
  return out;
}

}  // namespace vatwright::sulfite::molecular
