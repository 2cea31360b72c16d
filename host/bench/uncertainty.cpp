#include "host/bench/uncertainty.hpp"

#include "host/bench/readings.hpp"
#include "host/bench/slots.hpp"
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
#include <thread>

namespace vatwright {
namespace {

constexpr double nothing = std::numeric_limits<double>::quiet_NaN();

// --- first order ------------------------------------------------------------------------------

// What one standard uncertainty of each reading does to each figure.
struct Sensitivities {
  std::vector<std::vector<double>> by_reading;  // [reading][slot]; NaN: not known

  double standard(std::size_t slot) const {
    double sum = 0;
    for (const auto& effects : by_reading)
      if (std::isfinite(effects[slot])) sum += effects[slot] * effects[slot];
    return std::sqrt(sum);
  }
};

// By central differences; by a one-sided one where a figure is not known on the other side.
Sensitivities sensitivities(const Prepared& ready, const Slots& slots) {
  Sensitivities out;
  Variant variant(ready);
  std::vector<double> middle(slots.size()), below(slots.size()), above(slots.size());
  if (!slots.fill(variant, middle)) return out;
  for (std::size_t i = 0; i < variant.readings().size(); ++i) {
    const Reading& reading = variant.readings()[i];
    const double low = variant.set(i, reading.value - reading.standard);
    if (!slots.fill(variant, below)) std::fill(below.begin(), below.end(), nothing);
    const double high = variant.set(i, reading.value + reading.standard);
    if (!slots.fill(variant, above)) std::fill(above.begin(), above.end(), nothing);
    variant.reset(i);
    auto& effects = out.by_reading.emplace_back(slots.size(), nothing);
    for (std::size_t s = 0; s < slots.size(); ++s) {
      const bool has_below = std::isfinite(below[s]), has_above = std::isfinite(above[s]);
      const double span = (has_above ? high : reading.value) - (has_below ? low : reading.value);
      if (span > 0)
        effects[s] = ((has_above ? above : middle)[s] - (has_below ? below : middle)[s]) / span * reading.standard;
    }
  }
  return out;
}

void name_the_chief(const Sensitivities& all, const std::vector<Reading>& readings, std::size_t slot, Spread& spread) {
  double sum = 0, most = 0;
  for (std::size_t i = 0; i < all.by_reading.size(); ++i) {
    const double effect = all.by_reading[i][slot];
    if (!std::isfinite(effect)) continue;
    const double square = effect * effect;
    sum += square;
    if (square <= most) continue;
    most = square;
    spread.chief = readings[i].name;
  }
  if (sum > 0) spread.chief_share = most / sum;
}

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

void draw_block(std::size_t block, std::uint64_t seed, Variant& variant, const Slots& slots, Samples& samples,
                std::atomic<std::size_t>& failed) {
  const auto word = [](std::uint64_t number, int part) { return static_cast<std::uint32_t>(number >> (32 * part)); };
  boost::random::seed_seq sequence{word(seed, 0), word(seed, 1), word(block, 0), word(block, 1)};
  boost::random::mt19937_64 random(sequence);
  boost::random::normal_distribution<double> normal;
  const std::size_t end = std::min(samples.count, (block + 1) * block_size);
  for (std::size_t row = block * block_size; row < end; ++row) {
    for (std::size_t i = 0; i < variant.readings().size(); ++i) {
      const Reading& reading = variant.readings()[i];
      variant.set(i, reading.value + reading.standard * normal(random));
    }
    const std::span<double> into(samples.figures.data() + row * samples.width, samples.width);
    if (slots.fill(variant, into)) continue;
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

Samples draw(const Prepared& ready, const Draws& draws, const Slots& slots) {
  refuse_too_many(draws, slots);
  Samples samples{slots.size(), draws.count, 0, std::vector<double>(slots.size() * draws.count)};
  const std::size_t blocks = (draws.count + block_size - 1) / block_size;
  std::atomic<std::size_t> next = 0, failed = 0;
  const auto work = [&] {
    Variant variant(ready);
    for (std::size_t block = next++; block < blocks; block = next++)
      draw_block(block, draws.seed, variant, slots, samples, failed);
  };
  // Futures, so that a plugin that fails on a draw fails the run and not the process.
  std::vector<std::future<void>> threads;
  for (unsigned i = 0; i < std::max(1U, std::thread::hardware_concurrency()); ++i)
    threads.push_back(std::async(std::launch::async, work));
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
  Statement(const Prepared& ready, const Draws& draws, const Slots& slots)
      : readings_(Variant(ready).readings()), effects_(sensitivities(ready, slots)) {
    if (draws.count > 0) samples_ = draw(ready, draws, slots);
  }

  bool known() const { return !effects_.by_reading.empty(); }
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
    name_the_chief(effects_, readings_, slot, out);
    return out;
  }

 private:
  std::vector<Reading> readings_;
  Sensitivities effects_;
  Samples samples_;
};

void write(const Statement& statement, const Slots& slots, Worksheet& sheet) {
  constexpr double infinity = std::numeric_limits<double>::infinity();
  for (std::size_t s = 0; s < slots.size(); ++s) {
    const Slot& slot = slots[s];
    StepSheet& step = sheet.steps[slot.step];
    const Figures figures = statement.figures(s, slots.on_sheet(s));
    const Spread spread = statement.spread(s, figures);
    switch (slot.of) {
      case Slot::Of::result: {
        step.result_spreads.push_back(spread);
        const ResultInfo& info = *step.outcome.results[slot.index].info;
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
        step.chances.push_back({check.name, check.relation == "at most" ? figures.chance_between(-infinity, limit)
                                                                        : figures.chance_between(limit, infinity)});
        break;
      }
    }
  }
}

}  // namespace

void state_uncertainty(const Prepared& ready, const Draws& draws, Worksheet& sheet) {
  const std::size_t readings = Variant(ready).readings().size();
  sheet.uncertainty.readings = readings;
  if (readings == 0) return;
  const Slots slots(ready, sheet);
  const Statement statement(ready, draws, slots);
  if (!statement.known()) {
    sheet.uncertainty.notes.emplace_back("no uncertainty could be found for this recipe");
    return;
  }
  sheet.uncertainty.draws = draws.count;
  sheet.uncertainty.seed = draws.seed;
  sheet.uncertainty.failed = statement.failed();
  write(statement, slots, sheet);
}

}  // namespace vatwright
