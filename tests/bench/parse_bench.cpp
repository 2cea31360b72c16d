// Reading a quantity: the goal is below a microsecond each.
#include "units/parse.hpp"

#include <benchmark/benchmark.h>

namespace vatwright {
namespace {

void parse_text(benchmark::State& state, std::string_view text) {
  for (auto _ : state) benchmark::DoNotOptimize(parse(text));
}
BENCHMARK_CAPTURE(parse_text, acidity, "7.1 g/L as tartaric acid");
BENCHMARK_CAPTURE(parse_text, volume, "48.0 hL");

}  // namespace
}  // namespace vatwright
