#include "plugins/sulfite/molecular.hpp"

#include "plugins/chemistry/sulfite.hpp"
#include "plugins/sulfite/chart.hpp"
#include "plugins/sulfite/state.hpp"

namespace vatwright::sulfite::molecular {

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
  draw_molecular(in, used, {{"this lot", free_so2}}, out);
  check_limits(in, free_so2, read.total, out);
  return out;
}

}  // namespace vatwright::sulfite::molecular
