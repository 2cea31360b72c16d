#include "host/bench/uncertainty.hpp"

#include "host/bench/first_order.hpp"
#include "host/bench/models_alone.hpp"
#include "host/plugin/law.hpp"
#include "units/parse.hpp"
#include "units/print.hpp"

#include <fmt/format.h>
#include <boost/math/distributions/normal.hpp>
#include <boost/random/mersenne_twister.hpp>
#include <boost/random/normal_distribution.hpp>
#include <boost/random/seed_seq.hpp>

#include <algorithm>
#include <atomic>
#include <cmath>
#include <future>
#include <limits>
#include <optional>
#include <set>
#include <thread>

namespace vatwright {
namespace {

constexpr double nothing = std::numeric_limits<double>::quiet_NaN();

// --- drawn ------------------------------------------------------------------------------------

// Rows of draws; a row that starts with NaN in every slot gave no answer.
struct Samples {
  std::size_t width = 0, count = 0, failed = 0;
  std::vector<double> figures;

  // The answers of one slot, in rising order.
  std::vector<double> of(std::size_t slot) const {
    std::vector<double> out;
    out.reserve(count);
    for (std::size_t row = 0; row < count; ++row)
      if (const double figure = figures[row * width + slot]; std::isfinite(figure)) out.push_back(figure);
    std::sort(out.begin(), out.end());
    return out;
  }
};

// Draws are numbered in blocks, each with a generator of its own, so that the answer does not
// depend on how many cores share the work.
constexpr std::size_t block_size = 256;

// What the draws are taken of: the readings, and the steps that any of them can reach.
struct Drawing {
  const Draws& draws;
  const FirstRun& first;
  std::vector<std::size_t> steps;
};

void draw_block(std::size_t block, const Drawing& of, Variant& variant, Rerun& run, Samples& samples,
                std::atomic<std::size_t>& failed) {
  const auto word = [](std::uint64_t number, int part) { return static_cast<std::uint32_t>(number >> (32 * part)); };
  boost::random::seed_seq sequence{word(of.draws.seed, 0), word(of.draws.seed, 1), word(block, 0), word(block, 1)};
  boost::random::mt19937_64 random(sequence);
  boost::random::normal_distribution<double> normal;
  const std::size_t end = std::min(samples.count, (block + 1) * block_size);
  for (std::size_t row = block * block_size; row < end; ++row) {
    for (std::size_t i = 0; i < variant.readings().size(); ++i) {
      const Reading& reading = variant.readings()[i];
      variant.set(i, reading.value + reading.standard * normal(random));
    }
    const std::span<double> into(samples.figures.data() + row * samples.width, samples.width);
    std::copy(of.first.figures().begin(), of.first.figures().end(), into.begin());
    if (run(of.steps, into)) continue;
    std::fill(into.begin(), into.end(), nothing);
    ++failed;
  }
}

// Every figure of every draw is kept until the sheet is written.
void refuse_too_many(const Draws& draws, const Slots& slots) {
  constexpr std::size_t most_figures = 32U << 20U;  // 256 MiB
  if (slots.size() == 0 || draws.count <= most_figures / slots.size()) return;
  throw BadInput(fmt::format("{} draws of {} figures are more than fit in memory\n  take at most {}", draws.count,
                             slots.size(), most_figures / slots.size()));
}

Drawing drawing(const Draws& draws, const FirstRun& first, const std::vector<Reading>& readings) {
  std::set<std::size_t> steps;
  for (const auto& reading : readings) {
    const auto reached = reached_by(reading, first.reach());
    steps.insert(reached.begin(), reached.end());
  }
  return {draws, first, {steps.begin(), steps.end()}};
}

Samples draw(const Prepared& ready, const Draws& draws, const FirstRun& first, const std::vector<Reading>& readings) {
  const Slots& slots = first.slots();
  refuse_too_many(draws, slots);
  const Drawing of = drawing(draws, first, readings);
  Samples samples{slots.size(), draws.count, 0, std::vector<double>(slots.size() * draws.count)};
  const std::size_t blocks = (draws.count + block_size - 1) / block_size;
  std::atomic<std::size_t> next = 0, failed = 0;
  const auto work = [&] {
    Variant variant(ready);
    Rerun run(first, variant);
    for (std::size_t block = next++; block < blocks; block = next++)
      draw_block(block, of, variant, run, samples, failed);
  };
  // This thread works too: a browser may have no other. Futures, so that a plugin that fails on a draw fails the run
  // and not the process.
  std::vector<std::future<void>> threads;
  for (unsigned i = 1; i < std::thread::hardware_concurrency(); ++i)
    threads.push_back(std::async(std::launch::async, work));
  work();
  for (auto& thread : threads) thread.get();
  samples.failed = failed;
  return samples;
}

double standard_of(const std::vector<double>& sorted) {
  double mean = 0, squares = 0;
  const auto n = static_cast<double>(sorted.size());
  for (const double x : sorted) mean += x / n;
  for (const double x : sorted) squares += (x - mean) * (x - mean);
  return std::sqrt(squares / (n - 1));
}

double quantile(const std::vector<double>& sorted, double share) {
  const double at = share * static_cast<double>(sorted.size() - 1);
  const auto below = static_cast<std::size_t>(at);
  const auto above = std::min(below + 1, sorted.size() - 1);
  return std::lerp(sorted[below], sorted[above], at - std::floor(at));
}

// --- onto the sheet ---------------------------------------------------------------------------

// What is known of the spread of one figure.
struct Figures {
  double value = 0;
  double standard = 0;
  std::vector<double> drawn;  // rising; empty by first order

  double chance_between(double low, double high) const {
    if (!drawn.empty()) {
      const auto from = std::lower_bound(drawn.begin(), drawn.end(), low);
      const auto to = std::upper_bound(drawn.begin(), drawn.end(), high);
      return static_cast<double>(std::max<std::ptrdiff_t>(to - from, 0)) / static_cast<double>(drawn.size());
    }
    const boost::math::normal_distribution<double> normal(value, standard);
    const double up = std::isfinite(high) ? boost::math::cdf(normal, high) : 1;
    return up - (std::isfinite(low) ? boost::math::cdf(normal, low) : 0);
  }
};

class Statement {
 public:
  Statement(const Prepared& ready, const Draws& draws, const FirstRun& first, Variant& variant)
      : effects_(sensitivities(first, variant)) {
    if (draws.count > 0) samples_ = draw(ready, draws, first, variant.readings());
  }

  std::size_t failed() const { return samples_.failed; }

  Figures figures(std::size_t slot, double value) const {
    Figures out{value, effects_.standard(slot), {}};
    if (samples_.count == 0) return out;
    out.drawn = samples_.of(slot);
    if (out.drawn.size() < 2) return {value, 0, {}};
    out.standard = standard_of(out.drawn);
    return out;
  }

  Spread spread(std::size_t slot, const Figures& figures) const {
    // Below this share of the value it is the rounding of the arithmetic.
    constexpr double dust = 1e-9;
    Spread out;
    if (!(figures.standard > dust * std::abs(figures.value))) return out;
    out.standard = figures.standard;
    if (!figures.drawn.empty()) out.interval = {quantile(figures.drawn, 0.025), quantile(figures.drawn, 0.975)};
    effects_.name_the_chief(slot, out);
    return out;
  }

  std::string advice(std::size_t slot, const ResultInfo& info) const { return effects_.advice(slot, info); }

 private:
  Sensitivities effects_;
  Samples samples_;
};

void write(const Statement& statement, const Slots& slots, Worksheet& sheet) {
  constexpr double infinity = std::numeric_limits<double>::infinity();
  std::optional<std::size_t> advised;
  for (std::size_t s = 0; s < slots.size(); ++s) {
    const Slot& slot = slots[s];
    StepSheet& step = sheet.steps[slot.step];
    const Figures figures = statement.figures(s, slots.on_sheet(s));
    const Spread spread = statement.spread(s, figures);
    switch (slot.of) {
      case Slot::Of::result: {
        step.result_spreads.push_back(spread);
        const ResultInfo& info = *step.outcome.results[slot.index].info;
        // Of the first thing that the step decides on, where there is something to weigh for it.
        if (info.decided && spread.standard > 0 && !step.outcome.additions.empty() && advised != slot.step) {
          advised = slot.step;
          if (auto advice = statement.advice(s, info); !advice.empty()) step.outcome.note(std::move(advice));
        }
        if (!info.band || !(spread.standard > 0)) break;
        const Unit unit = parse_unit(info.unit);
        step.chances.push_back({fmt::format("{} of {:g} to {}", info.name, info.band->low,
                                            with_unit(fmt::format("{:g}", info.band->high), info.unit)),
                                figures.chance_between(unit.coherent(info.band->low), unit.coherent(info.band->high))});
        break;
      }
      case Slot::Of::addition:
        step.addition_spreads.push_back(spread);
        break;
      case Slot::Of::check: {
        if (!(spread.standard > 0)) break;
        const Check& check = step.outcome.checks[slot.index];
        // What was refused was not done: there is nothing that it could happen to.
        if (step.doses && step.outcome.additions.empty() && !check.holds) break;
        const double limit = check.limit->number;
        step.chances.push_back({check.name, is_ceiling(check.relation) ? figures.chance_between(-infinity, limit)
                                                                       : figures.chance_between(limit, infinity)});
        break;
      }
    }
  }
}

// What a result is uncertain by of its own is independent of the readings' ±.
void join_own(const ResultValue& result, Spread& spread) {
  if (!(result.own_standard > 0)) return;
  const double joined = std::hypot(spread.standard, result.own_standard);
  const double own_share = result.own_standard * result.own_standard / (joined * joined);
  if (spread.interval)
    for (double* end : {&spread.interval->first, &spread.interval->second})
      *end = result.number + (*end - result.number) * joined / spread.standard;
  const double chief = spread.chief_share * (1 - own_share);
  spread.standard = joined;
  if (own_share >= chief) spread.chief = result.own_name;
  spread.chief_share = std::max(own_share, chief);
}

void join_own(Worksheet& sheet) {
  for (auto& step : sheet.steps) {
    const auto& results = step.outcome.results;
    if (std::none_of(results.begin(), results.end(), [](const ResultValue& r) { return r.own_standard > 0; })) continue;
    ++sheet.uncertainty.own;
    step.result_spreads.resize(results.size());
    for (std::size_t i = 0; i < results.size(); ++i) join_own(results[i], step.result_spreads[i]);
  }
}

void state_of_readings(const Prepared& ready, const Draws& draws, Worksheet& sheet) {
  if (!has_readings(ready)) {
    if (draws.tell_models_alone) tell_models_alone(ready, sheet);
    return;
  }
  Variant variant(ready);
  for (const auto& reading : variant.readings())
    ++(reading.model == nullptr ? sheet.uncertainty.readings : sheet.uncertainty.models);
  if (variant.readings().empty()) return;
  Slots slots(ready, sheet);
  const Reach reach(ready, sheet);
  const FirstRun first(ready, slots, reach, variant);
  if (!first.known()) {
    sheet.uncertainty.notes.emplace_back("no uncertainty could be found for this recipe");
    return;
  }
  const Statement statement(ready, draws, first, variant);
  sheet.uncertainty.draws = draws.count;
  sheet.uncertainty.seed = draws.seed;
  sheet.uncertainty.failed = statement.failed();
  write(statement, slots, sheet);
}

}  // namespace

void state_uncertainty(const Prepared& ready, const Draws& draws, Worksheet& sheet) {
  state_of_readings(ready, draws, sheet);
  join_own(sheet);
}

}  // namespace vatwright
