// What cold.tartrate computes of one lot: the unmeasured acid, the deposit at the holding temperature,
// the saturation temperature, pH and acidity after it, and the course for its chart.
#include "plugins/chemistry/lab_analysis.hpp"
#include "plugins/chemistry/tartrate.hpp"

#include <benchmark/benchmark.h>

namespace vatwright::chemistry {
namespace {

constexpr Strength strength = 12.6 * percent_vol;
constexpr Temperature cold = celsius(-4);

LabAnalysis analysis() {
  return {.ph = 3.42 * ph_unit,
          .titratable = 68.0 * milliequivalent_per_litre,
          .tartaric = 2.1 * gram_per_litre,
          .malic = 1.4 * gram_per_litre,
          .potassium = 980.0 * milligram_per_litre,
          .free_so2 = 25.0 * milligram_per_litre};
}

void cold_tartrate(benchmark::State& state) {
  auto a = analysis();
  for (auto _ : state) {
    benchmark::DoNotOptimize(a);
    const Bitartrate model(strength);
    const Medium bench(strength, celsius(20));
    const Composition c = infer(a, bench).composition;
    const Deposit d = model.deposit(c, cold);
    benchmark::DoNotOptimize(model.saturation(c, cold));
    benchmark::DoNotOptimize(model.saturation_temperature(c));
    benchmark::DoNotOptimize(equilibrium(d.left, bench).ph);
    benchmark::DoNotOptimize(titratable_acidity(d.left, oiv_endpoint, bench));
    for (int t = -6; t <= 30; t += 4) benchmark::DoNotOptimize(model.saturation(c, celsius(t)));
  }
}
BENCHMARK(cold_tartrate);

void cold_deposit(benchmark::State& state) {
  const Bitartrate model(strength);
  Composition c = infer(analysis(), Medium(strength, celsius(20))).composition;
  for (auto _ : state) {
    benchmark::DoNotOptimize(c);
    benchmark::DoNotOptimize(model.deposit(c, cold).removed);
  }
}
BENCHMARK(cold_deposit);

}  // namespace
}  // namespace vatwright::chemistry
