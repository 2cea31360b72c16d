// Density of ethanol and water and its inverse: the goals are 100 ns and 2 µs. The sucrose ones beside
// them have the same shape.
#include "plugins/chemistry/alcoholometry.hpp"

#include "plugins/chemistry/sucrose.hpp"

#include <benchmark/benchmark.h>

#include <vector>

namespace vatwright::chemistry {
namespace {

constexpr std::size_t liquids = 1024;

double share(std::size_t i) { return (static_cast<double>(i) + 0.5) / liquids; }
Temperature warmth(std::size_t i) { return celsius(5 + 30 * share((i * 397) % liquids)); }

// One call a pass, of a different liquid each time.
template <class Inputs, class Call>
void one_by_one(benchmark::State& state, const Inputs& inputs, Call call) {
  std::size_t i = 0;
  for (auto _ : state) {
    benchmark::DoNotOptimize(call(inputs[i]));
    i = (i + 1) % inputs.size();
  }
}

struct Liquid {
  MassFraction share;
  Temperature temperature;
  Density density;
};

template <class Of>
std::vector<Liquid> some(double most, Of density) {
  std::vector<Liquid> all;
  for (std::size_t i = 0; i < liquids; ++i) {
    const auto solute = coherent<MassFraction>(most * share(i));
    all.push_back({solute, warmth(i), density(solute, warmth(i))});
  }
  return all;
}

void alcoholometry_density(benchmark::State& state) {
  one_by_one(state, some(1, ethanol_water_density),
             [](const Liquid& l) { return ethanol_water_density(l.share, l.temperature); });
}
BENCHMARK(alcoholometry_density);

void alcoholometry_inverse(benchmark::State& state) {
  one_by_one(state, some(1, ethanol_water_density),
             [](const Liquid& l) { return ethanol_mass_fraction(l.density, l.temperature); });
}
BENCHMARK(alcoholometry_inverse);

void alcoholometry_strength_to_mass(benchmark::State& state) {
  one_by_one(state, some(1, ethanol_water_density),
             [](const Liquid& l) { return ethanol_by_mass(coherent<Strength>(l.share.value())); });
}
BENCHMARK(alcoholometry_strength_to_mass);

void sucrose_density(benchmark::State& state) {
  one_by_one(state, some(0.7, chemistry::sucrose_density),
             [](const Liquid& l) { return chemistry::sucrose_density(l.share, l.temperature); });
}
BENCHMARK(sucrose_density);

void sucrose_inverse(benchmark::State& state) {
  one_by_one(state, some(0.7, chemistry::sucrose_density),
             [](const Liquid& l) { return sucrose_mass_fraction(l.density, l.temperature); });
}
BENCHMARK(sucrose_inverse);

}  // namespace
}  // namespace vatwright::chemistry
