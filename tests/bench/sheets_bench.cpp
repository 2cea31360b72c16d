// Whole sheets inside the process: many lots with the uncertainty of their readings, which is to grow as their number
// does, draws of a chain of steps, and a step on row after row.
#include <benchmark/benchmark.h>
#include <fmt/format.h>

#include <string>

#include "tests/host/house.hpp"

namespace vatwright::test {
namespace {

TestHouse& house() {
  static TestHouse the_house;
  return the_house;
}

std::string lots_with_a_step(std::int64_t count, const std::string& head) {
  std::string text = "recipe: many lots\n" + head + "lots:\n", steps = "steps:\n";
  for (std::int64_t i = 0; i < count; ++i) {
    text += fmt::format("  L{}: {{pH: {:.2f}, free SO2: {} mg/L}}\n", i, 3.1 + static_cast<double>(i % 50) / 100,
                        8 + i % 18);
    steps += fmt::format("  - sulfite.molecular: {{lot: L{}}}\n", i);
  }
  return text + steps;
}

void run_sheets(benchmark::State& state, const std::string& head) {
  const Recipe recipe = read_recipe(Document::read("many.yaml", lots_with_a_step(state.range(0), head)));
  const Bench bench = house().bench();
  for (auto _ : state) benchmark::DoNotOptimize(bench.run(recipe));
  state.SetComplexityN(state.range(0));
}

void sheet_of_lots(benchmark::State& state) { run_sheets(state, ""); }
BENCHMARK(sheet_of_lots)->Arg(30)->Arg(100)->Arg(300)->Arg(1000)->Unit(benchmark::kMillisecond)->Complexity();

void sheet_of_uncertain_lots(benchmark::State& state) { run_sheets(state, "uncertainty: typical\n"); }
BENCHMARK(sheet_of_uncertain_lots)->Arg(30)->Arg(100)->Arg(300)->Arg(1000)->Unit(benchmark::kMillisecond)->Complexity();

constexpr char chain[] =
    "recipe: three steps of a chain\nrules: EU\nacid basis: tartaric acid\nlots:\n"
    "  T5: {class: still, colour: pink, stage: wine, volume: 40 hL, pH: 3.48 ± 0.02, titratable acidity: 4.6 ± 0.1 "
    "g/L,\n"
    "       ethanol: 12.5 % vol, sugar: 1.5 g/L, free SO2: 9 ± 2 mg/L, total SO2: 48 ± 4 mg/L, potassium: 910 ± 30 "
    "mg/L,\n"
    "       tartaric acid: 1.7 ± 0.1 g/L, malic acid: 1.5 g/L}\n"
    "steps:\n  - acid.addition: {target pH: 3.30}\n  - sulfite.addition: {target molecular SO2: 0.6 mg/L}\n"
    "  - cold.tartrate: {hold at: -4 °C}\n";

void draws_of_a_chain(benchmark::State& state) {
  const Recipe recipe = read_recipe(Document::read("chain.yaml", chain));
  const Bench bench = house().bench();
  const auto count = static_cast<std::size_t>(state.range(0));
  for (auto _ : state) benchmark::DoNotOptimize(bench.run(recipe, {count, 1}));
  state.SetItemsProcessed(state.iterations() * state.range(0));
}
BENCHMARK(draws_of_a_chain)->Arg(2000)->Unit(benchmark::kMillisecond)->MeasureProcessCPUTime();

void steps_of_rows(benchmark::State& state) {
  const Recipe recipe = read_recipe(Document::read("row.yaml", lots_with_a_step(1, "")));
  const Bench bench = house().bench();
  const Prepared ready = bench.prepare(recipe);
  for (auto _ : state) {
    Worksheet sheet;
    bench.run_steps(ready, {}, sheet);
    benchmark::DoNotOptimize(&sheet);
  }
  state.SetItemsProcessed(state.iterations());
}
BENCHMARK(steps_of_rows)->Unit(benchmark::kMicrosecond);

}  // namespace
}  // namespace vatwright::test
