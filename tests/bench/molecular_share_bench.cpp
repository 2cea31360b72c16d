// What the unit checks cost at run time: the same formula on quantities and on bare doubles.
#include "plugins/chemistry/sulfite.hpp"

#include <benchmark/benchmark.h>

#include <cmath>
#include <vector>

namespace vatwright::chemistry {
namespace {

constexpr std::size_t wines = 4096;

double ph_of(std::size_t i) { return 2.8 + 1.2 * static_cast<double>(i) / wines; }

void molecular_share_bare(benchmark::State& state) {
  std::vector<double> ph(wines), share(wines);
  for (std::size_t i = 0; i < wines; ++i) ph[i] = ph_of(i);
  const double pk1 = trade_pk1.value();
  for (auto _ : state) {
    for (std::size_t i = 0; i < wines; ++i) share[i] = 1 / (1 + std::pow(10.0, ph[i] - pk1));
    benchmark::DoNotOptimize(share.data());
    benchmark::ClobberMemory();
  }
}
BENCHMARK(molecular_share_bare);

void molecular_share_checked(benchmark::State& state) {
  std::vector<Ph> ph(wines);
  std::vector<Fraction> share(wines);
  for (std::size_t i = 0; i < wines; ++i) ph[i] = ph_of(i) * ph_unit;
  for (auto _ : state) {
    for (std::size_t i = 0; i < wines; ++i) share[i] = molecular_share(ph[i], trade_pk1);
    benchmark::DoNotOptimize(share.data());
    benchmark::ClobberMemory();
  }
}
BENCHMARK(molecular_share_checked);

}  // namespace
}  // namespace vatwright::chemistry
