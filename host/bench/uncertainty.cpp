#include "host/bench/uncertainty.hpp"

#include "host/bench/course.hpp"
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

// --- first order ------------------------------------------------------------------------------

// What one standard uncertainty of a reading does to a figure.
struct Effect {
  std::size_t reading;
  double size;
};

// By figure, in the order of the readings; of those that cannot reach it there is none.
class Sensitivities {
 public:
  explicit Sensitivities(std::size_t slots) : effects_(slots) {}

  void add(std::size_t slot, Effect effect) { effects_[slot].push_back(effect); }

  double standard(std::size_t slot) const {
    double sum = 0;
    for (const Effect& effect : effects_[slot]) sum += effect.size * effect.size;
    return std::sqrt(sum);
  }

  // The effect that does most of it; nullptr: there is none.
  const Effect* most(std::size_t slot) const {
    const auto smaller = [](const Effect& a, const Effect& b) { return std::abs(a.size) < std::abs(b.size); };
    const auto at = std::max_element(effects_[slot].begin(), effects_[slot].end(), smaller);
    return at == effects_[slot].end() ? nullptr : &*at;
  }

  void name_the_chief(const std::vector<Reading>& readings, std::size_t slot, Spread& spread) const {
    double sum = 0, most = 0;
    for (const Effect& effect : effects_[slot]) {
      const double square = effect.size * effect.size;
      sum += square;
      if (square <= most) continue;
      most = square;
      spread.chief = readings[effect.reading].name;
    }
    if (sum > 0) spread.chief_share = most / sum;
  }

 private:
  std::vector<std::vector<Effect>> effects_;
};

// Calls `visit` for each figure of the steps.
template <class Visit>
void each_slot(const Slots& slots, const std::vector<std::size_t>& steps, Visit visit) {
  for (const std::size_t step : steps)
    for (std::size_t s = slots.first(step); s < slots.first(step + 1); ++s) visit(s);
}

std::vector<std::size_t> reached_by(const Reading& reading, const Reach& reach) {
  return reading.of_lot ? reach.of_lot(reading.origin) : reach.of_step(reading.origin);
}

// By central differences; by a one-sided one where a figure is not known on the other side.
Sensitivities sensitivities(const FirstRun& first, Variant& variant) {
  const Slots& slots = first.slots();
  Sensitivities out(slots.size());
  Rerun run(first, variant);
  const std::vector<double>& middle = first.figures();
  std::vector<double> below(slots.size()), above(slots.size());
  std::vector<std::size_t> steps;
  for (std::size_t i = 0; i < variant.readings().size(); ++i) {
    const Reading& reading = variant.readings()[i];
    const bool same_origin = i > 0 && reading.of_lot == variant.readings()[i - 1].of_lot &&
                             reading.origin == variant.readings()[i - 1].origin;
    if (!same_origin) steps = reached_by(reading, first.reach());
    const auto on_one_side = [&](double value, std::vector<double>& figures) {
      const double set = variant.set(i, value);
      if (!run(steps, figures)) each_slot(slots, steps, [&](std::size_t s) { figures[s] = nothing; });
      return set;
    };
    const double low = on_one_side(reading.value - reading.standard, below);
    const double high = on_one_side(reading.value + reading.standard, above);
    variant.reset(i);
    each_slot(slots, steps, [&](std::size_t s) {
      const bool has_below = std::isfinite(below[s]), has_above = std::isfinite(above[s]);
      const double span = (has_above ? high : reading.value) - (has_below ? low : reading.value);
      if (!(span > 0)) return;
      const double effect =
          ((has_above ? above : middle)[s] - (has_below ? below : middle)[s]) / span * reading.standard;
      if (std::isfinite(effect)) out.add(s, {i, effect});
    });
  }
  return out;
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
      : readings_(variant.readings()), effects_(sensitivities(first, variant)) {
    if (draws.count > 0) samples_ = draw(ready, draws, first, readings_);
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
    effects_.name_the_chief(readings_, slot, out);
    return out;
  }

  // What to measure so that the figure becomes surer, and how much; empty where nothing stands out.
  std::string advice(std::size_t slot, const ResultInfo& info) const {
    constexpr double worth_it = 0.2;  // of the variance (common practice, no source)
    const double all = effects_.standard(slot);
    const Effect* chief = effects_.most(slot);
    if (chief == nullptr || !(chief->size * chief->size > worth_it * all * all)) return {};
    const Reading& reading = readings_[chief->reading];
    if (reading.model != nullptr && reading.model->measure.empty()) return {};
    const double left = std::sqrt(std::max(all * all - chief->size * chief->size, 0.0));
    const double one = parse_unit(info.unit).slope(0);
    return fmt::format("{} would help most: without {} the ± of the {} would be {} in place of {}",
                       reading.model != nullptr ? fmt::format("to measure {}", reading.model->measure)
                                                : fmt::format("to read {} more closely", reading.name),
                       reading.model != nullptr ? "what is assumed in its stead" : "its ±", info.name,
                       print_number(left / one, info.decimals),
                       with_unit(print_number(all / one, info.decimals), info.unit));
  }

 private:
  const std::vector<Reading>& readings_;
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
        step.chances.push_back({check.name, check.relation == "at most" || check.relation == "below"
                                                ? figures.chance_between(-infinity, limit)
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

// A ± of the models alone at the figures would pass for that of a sheet whose readings carry one: it stands in words,
// as the least that the figures are uncertain by.
void tell_models_alone(const Prepared& ready, Worksheet& sheet) {
  Variant variant(ready);
  if (variant.readings().empty()) return;
  const Slots slots(ready, sheet);
  const Reach reach(ready, sheet);
  const FirstRun first(ready, slots, reach, variant);
  if (!first.known()) return;
  const Statement statement(ready, {}, first, variant);
  std::vector<std::string> words(sheet.steps.size()), advice(sheet.steps.size());
  for (std::size_t s = 0; s < slots.size(); ++s) {
    if (slots[s].of != Slot::Of::result) continue;
    const StepSheet& step = sheet.steps[slots[s].step];
    const ResultInfo& info = *step.outcome.results[slots[s].index].info;
    const Spread spread = statement.spread(s, statement.figures(s, slots.on_sheet(s)));
    const auto shown = print_number(spread.standard / parse_unit(info.unit).slope(0), info.decimals);
    if (shown.find_first_not_of("0.") == std::string::npos) continue;
    auto& line = words[slots[s].step];
    line += fmt::format("{}{} ± {}", line.empty() ? "" : ", ", info.name, with_unit(shown, info.unit));
    if (auto& more = advice[slots[s].step]; more.empty() && info.decided && !step.outcome.additions.empty())
      more = statement.advice(s, info);
  }
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (words[i].empty() || sheet.steps[i].withheld) continue;
    sheet.steps[i].outcome.note(
        fmt::format("by the models alone, as standard uncertainties: {}. No reading carries a ±, so that none stands "
                    "at the figures; write one, or 'uncertainty: typical'",
                    words[i]));
    if (!advice[i].empty()) sheet.steps[i].outcome.note(std::move(advice[i]));
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
  const Slots slots(ready, sheet);
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
