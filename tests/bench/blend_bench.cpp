// A blend of twenty lots, each with its pH, acidity, ethanol and potassium; goal: below 100 µs.
#include "plugins/chemistry/mixing.hpp"

#include <benchmark/benchmark.h>

#include <vector>

namespace vatwright::chemistry {
namespace {

std::vector<Part> twenty_lots() {
  std::vector<Part> parts;
  for (int i = 0; i < 20; ++i) {
    parts.push_back({.volume = (10.0 + i) * hectolitre,
                     .ethanol = (11.0 + 0.1 * i) * percent_vol,
                     .density = (990.0 + 0.1 * i) * kilogram_per_cubic_metre,
                     .acids = LabAnalysis{.ph = (3.1 + 0.02 * i) * ph_unit,
                                          .titratable = (95.0 - i) * milliequivalent_per_litre,
                                          .potassium = (0.8 + 0.02 * i) * gram_per_litre}});
  }
  return parts;
}

void blend_of_twenty(benchmark::State& state) {
  auto parts = twenty_lots();
  for (auto _ : state) {
    benchmark::DoNotOptimize(parts);
    benchmark::DoNotOptimize(blend(parts).ph);
  }
}
BENCHMARK(blend_of_twenty);

}  // namespace
}  // namespace vatwright::chemistry
