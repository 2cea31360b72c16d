// A design with 200 lots, 12 bounds and rules of composition, from the readings to the answer; goal:
// below 0.5 s.
#include "plugins/blend/design/search.hpp"

#include <benchmark/benchmark.h>

#include <cstdlib>
#include <fstream>
#include <memory>
#include <random>
#include <string>
#include <vector>

namespace vatwright::blend::design {
namespace {

class TwoHundred {
 public:
  TwoHundred() {
    for (int i = 0; i < 200; ++i) rows_.push_back(lot(i));
    problem.volume = 500.0 * hectolitre;
    for (const auto& row : rows_)
      problem.lots.push_back(
          {.row = &row, .most = row[lot::volume].value() / problem.volume.value(), .price = draw(60, 200)});
    problem.bounds = {
        {&lot::ph, 3.20, 3.32},      {&lot::ethanol, 0.122, 0.126}, {&lot::titratable_acidity, 76.0, 82.0},
        {&lot::sugar, 1.0, 2.0},     {&lot::potassium, {}, 0.7},    {&lot::volatile_acidity, {}, 5.0},
        {&lot::total_so2, {}, 0.08}, {&lot::free_so2, 0.02, {}}};
    problem.rules = {
        {.name = "two varieties", .of = "variety", .least_members = 2, .together_at_least = 0.7, .each_at_most = 0.9},
        {.name = "label", .of = "vintage", .among = {"2026"}, .together_at_least = 0.85}};
  }

  Problem problem;

 private:
  double draw(double low, double high) {
    return low + (high - low) * static_cast<double>(random_() >> 11) / 9007199254740992.0;
  }

  Row lot(int i) {
    NewLot made;
    made.set(lot::volume, draw(10, 60) * hectolitre);
    made.set(lot::ethanol, draw(11, 14) * percent_vol);
    made.set(lot::ph, draw(3.05, 3.6) * ph_unit);
    made.set(lot::titratable_acidity, draw(60, 100) * milliequivalent_per_litre);
    made.set(lot::sugar, draw(0.5, 4) * gram_per_litre);
    made.set(lot::potassium, draw(500, 900) * milligram_per_litre);
    made.set(lot::volatile_acidity, draw(2.5, 8) * milliequivalent_per_litre);
    made.set(lot::free_so2, draw(10, 40) * milligram_per_litre);
    made.set(lot::total_so2, draw(50, 120) * milligram_per_litre);
    made.set(lot::varieties, Shares{{i % 3 == 0 ? "Sorrel" : "Teasel", 0.7}, {"Blackthorn", 0.3}});
    made.set(lot::vintage, Shares{{i % 2 == 0 ? "2026" : "2025", 1.0}});
    Row row;
    row.name = "L" + std::to_string(i);
    row.lot = std::make_shared<const Analysis>(std::move(made.analysis));
    return row;
  }

  std::mt19937_64 random_{7};
  std::vector<Row> rows_;
};

void design(benchmark::State& state, const Problem& problem) {
  for (auto _ : state) {
    const Lots lots(problem);
    const auto answer = search(problem, lots);
    if (!std::holds_alternative<Found>(answer)) state.SkipWithError("no blend");
    benchmark::DoNotOptimize(&answer);
  }
}

void design_of_two_hundred(benchmark::State& state) {
  const TwoHundred given;
  design(state, given.problem);
}
BENCHMARK(design_of_two_hundred)->Unit(benchmark::kMillisecond);

void design_of_two_hundred_smallest_share(benchmark::State& state) {
  TwoHundred given;
  given.problem.smallest_share = 0.03;
  design(state, given.problem);
}
BENCHMARK(design_of_two_hundred_smallest_share)->Unit(benchmark::kMillisecond);

// Forty lots, each whole or not at all, as near to a profile as can be: too many choices to try them all.
void design_of_forty_whole(benchmark::State& state) {
  TwoHundred given;
  given.problem.lots.resize(40);
  for (auto& lot : given.problem.lots) lot.whole = true;
  given.problem.rules.clear();
  given.problem.bounds = {{&lot::ph, 3.20, 3.40}, {&lot::ethanol, 0.118, 0.128}};
  given.problem.profile = {{&lot::ph, 3.29, 3.29}, {&lot::ethanol, 0.124, 0.124}, {&lot::sugar, 2.0, 2.0}};
  given.problem.for_cost = false;
  // Two decimals of a hectolitre, and a volume that some of them make: those of the last twelve.
  double volume = 0;
  for (std::size_t i = 28; i < 40; ++i) volume += given.problem.lots[i].most;
  for (auto& lot : given.problem.lots) lot.most /= volume;
  given.problem.volume *= volume;
  design(state, given.problem);
}
BENCHMARK(design_of_forty_whole)->Unit(benchmark::kMillisecond);

// One linear program of it, as the search makes it of an even blend; written to a file for glpsol where
// the environment names one.
void design_program(benchmark::State& state) {
  const TwoHundred given;
  const Lots lots(given.problem);
  const Estimate even(lots, Mixture(lots.size(), 1.0 / static_cast<double>(lots.size())));
  const auto program = formulate(given.problem, even, std::vector<double>(sides(given.problem).size(), 0.0)).model;
  if (const char* file = std::getenv("VATWRIGHT_BENCH_MODEL")) std::ofstream(file) << program::written(program);
  for (auto _ : state) benchmark::DoNotOptimize(program::solve(program));
}
BENCHMARK(design_program)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace vatwright::blend::design
