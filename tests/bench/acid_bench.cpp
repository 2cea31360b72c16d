// The acid-base engine: one pH, one titration to the end point, one inference, and the same balance
// without unit types.
#include "plugins/chemistry/balance.hpp"
#include "plugins/chemistry/inference.hpp"

#include <benchmark/benchmark.h>

namespace vatwright::chemistry {
namespace {

// Every acid of the table, so that nothing is left out of the sums.
Composition wine() {
  Composition c;
  c.add(Acid::tartaric, 2.4 * gram_per_litre);
  c.add(Acid::malic, 2.1 * gram_per_litre);
  c.add(Acid::lactic, 0.3 * gram_per_litre);
  c.add(Acid::citric, 0.25 * gram_per_litre);
  c.add(Acid::succinic, 0.6 * gram_per_litre);
  c.add(Acid::acetic, 0.25 * gram_per_litre);
  c.add(Acid::phosphoric, 0.2 * gram_per_litre);
  c.add(Acid::carbonic, 0.9 * gram_per_litre);
  c.add(Acid::sulfurous, 0.03 * gram_per_litre);
  c.add(Acid::sulfuric, 0.3 * gram_per_litre);
  c.add(Ion::potassium, 0.85 * gram_per_litre);
  return c;
}

const Medium medium(12.0 * percent_vol, celsius(20));

void acid_ph_checked(benchmark::State& state) {
  Composition c = wine();
  for (auto _ : state) {
    benchmark::DoNotOptimize(c);
    benchmark::DoNotOptimize(equilibrium(c, medium).ph);
  }
}
BENCHMARK(acid_ph_checked);

// The same balance from bare numbers: no unit types and no limits on its way.
void acid_ph_bare(benchmark::State& state) {
  kernel::Amounts amounts = kernel::amounts(wine());
  for (auto _ : state) {
    benchmark::DoNotOptimize(amounts);
    benchmark::DoNotOptimize(kernel::Balance(amounts, medium).solve().ph);
  }
}
BENCHMARK(acid_ph_bare);

void acid_titratable_acidity(benchmark::State& state) {
  Composition c = wine();
  for (auto _ : state) {
    benchmark::DoNotOptimize(c);
    benchmark::DoNotOptimize(titratable_acidity(c, oiv_endpoint, medium));
  }
}
BENCHMARK(acid_titratable_acidity);

// As at the bench: the pH first, the base to the end point, and the pH read again there.
void acid_titration(benchmark::State& state) {
  Composition c = degassed(wine());
  for (auto _ : state) {
    benchmark::DoNotOptimize(c);
    Composition titrated = c;
    benchmark::DoNotOptimize(equilibrium(titrated, medium).ph);
    titrated.add_base(base_to(titrated, oiv_endpoint, medium));
    benchmark::DoNotOptimize(equilibrium(titrated, medium).ph);
  }
}
BENCHMARK(acid_titration);

void acid_inference(benchmark::State& state) {
  Measured m{3.3 * ph_unit, 90.0 * milliequivalent_per_litre};
  m.known.add(Ion::potassium, 0.85 * gram_per_litre);
  m.unmeasured[index(Acid::tartaric)] = m.unmeasured[index(Acid::malic)] = 1;
  for (auto _ : state) {
    benchmark::DoNotOptimize(m);
    benchmark::DoNotOptimize(infer(m, medium).rest);
  }
}
BENCHMARK(acid_inference);

}  // namespace
}  // namespace vatwright::chemistry
