#include "plugins/control/meter.hpp"

#include "plugins/chemistry/constants.hpp"
#include "plugins/chemistry/statistics/line.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numbers>

namespace vatwright::control::meter {
namespace {

constexpr double unknown = std::numeric_limits<double>::quiet_NaN();
constexpr std::array table_at{15.0, 20.0, 25.0, 30.0, 35.0};  // °C
struct BufferRow {
  std::string_view name;
  std::array<double, table_at.size()> ph;
};
constexpr BufferRow buffer_table[] = {
    {"tetroxalate", {1.67, 1.68, 1.68, 1.68, 1.69}}, {"tartrate", {unknown, unknown, 3.56, 3.55, 3.55}},
    {"citrate", {3.80, 3.79, 3.78, 3.77, 3.76}},     {"phthalate", {4.00, 4.00, 4.01, 4.02, 4.02}},
    {"phosphate", {6.90, 6.88, 6.87, 6.85, 6.84}},   {"borax", {9.28, 9.23, 9.18, 9.14, 9.10}},
    {"carbonate", {10.12, 10.06, 10.01, 9.97, 9.93}}};

double ph_of_buffer(std::string_view name, Temperature t) {
  for (const auto& row : buffer_table) {
    if (row.name != name) continue;
    const double at_step = (degrees_celsius(t) - table_at.front()) / (table_at[1] - table_at[0]);
    const auto i = std::min(static_cast<std::size_t>(std::max(at_step, 0.0)), table_at.size() - 2);
    const double found = std::lerp(row.ph.at(i), row.ph.at(i + 1), at_step - static_cast<double>(i));
    if (std::isfinite(found)) return found;
    throw InputError(fmt::format("the table has no pH of {} at {}", name, print(t, "°C", 1)),
                     "read at 25 °C and above, or give 'buffer pH' from its label");
  }
  throw std::logic_error("a buffer without a row");
}

double ph_of(const Row& row, Temperature t) {
  const auto given = row.get(buffer_ph);
  if (given.has_value() == row.has(buffer))
    throw InputError("a buffer needs either its name ('buffer') or its 'buffer pH'",
                     "write one of the two in each row");
  return given ? given->value() : ph_of_buffer(row[buffer], t);
}

// V for one pH.
Voltage theory(Temperature t) {
  return coherent<Voltage>(std::numbers::ln10 * chemistry::kernel::gas_constant * t.value() /
                           chemistry::kernel::faraday);
}

struct Meter {
  double slope = 0;  // V a pH, positive
  double zero = 0;   // V at pH 0
  double low = 0, high = 0, scatter = 0;

  double ph(double volts) const { return (zero - volts) / slope; }
};

Meter calibrated(const Inputs& in) {
  std::vector<statistics::Standard> read;
  for (const Row& row : in[buffers]) read.push_back({ph_of(row, in[at]), row[reads].value(), 1});
  if (read.size() < 2) throw InputError("fewer than two buffers", "read two or more, one on either side of the sample");
  const auto [lowest, highest] = std::minmax_element(
      read.begin(), read.end(), [](const statistics::Standard& a, const statistics::Standard& b) { return a.x < b.x; });
  if (!(highest->x > lowest->x)) throw InputError("the buffers are all of one pH", "read two different ones");
  Meter meter{.low = lowest->x, .high = highest->x};
  if (const auto line = statistics::fit(read)) {
    meter.slope = -line->slope;
    meter.zero = line->start;
    meter.scatter = line->scatter;
  } else {
    meter.slope = (lowest->y - highest->y) / (highest->x - lowest->x);
    meter.zero = lowest->y + meter.slope * lowest->x;
  }
  if (!(meter.slope > 0))
    throw InputError("the millivolts rise with pH",
                     "look whether two buffers are swapped, and at the sign that the meter shows");
  return meter;
}

void check_meter(const Inputs& in, double share_of_theory, Voltage off, Outcome& out) {
  const bool by_book = in[held_to] == pharmacopeia;
  const Range wanted = by_book ? Range{0.90, 1.05} : Range{0.95, 1.02};
  const bool steep = share_of_theory >= wanted.low;
  const bool not_too = share_of_theory <= wanted.high;
  const std::string source(by_book ? acceptance.title : bench_rule.standing);
  const auto shown = figure(Fraction(share_of_theory), "%", 2);
  out.checks.push_back({.name = "least slope",
                        .holds = steep,
                        .value = shown,
                        .limit = figure(Fraction(wanted.low), "%", 1),
                        .relation = "at least",
                        .source = source,
                        .remedy = steep ? "" : "clean or renew the electrode, take fresh buffers, calibrate again"});
  out.checks.push_back(
      {.name = "greatest slope",
       .holds = not_too,
       .value = shown,
       .limit = figure(Fraction(wanted.high), "%", 1),
       .relation = "at most",
       .source = source,
       .remedy = not_too ? "" : "a slope above theory is a wrong buffer or a wrong temperature: look at both"});
  constexpr Voltage widest = 30.0 * millivolt;
  const auto size = coherent<Voltage>(std::abs(off.value()));
  const bool near = size <= widest;
  out.checks.push_back({.name = "offset at pH 7",
                        .holds = near,
                        .value = figure(size, "mV", 2),
                        .limit = figure(widest, "mV", 0),
                        .relation = "at most",
                        .source = std::string(acceptance.title),
                        .remedy = near ? "" : "refill or renew the electrode, calibrate again"});
}

}  // namespace

Outcome run(const Inputs& in) {
  const Meter found = calibrated(in);
  const Voltage off = coherent<Voltage>(found.zero - 7 * found.slope);
  const double share_of_theory = found.slope / theory(in[at]).value();
  Outcome out;
  out.result(slope, coherent<Voltage>(found.slope));
  out.result(share, Fraction(share_of_theory));
  out.result(offset, off);
  check_meter(in, share_of_theory, off, out);
  const auto millivolts = in.get(sample_reads);
  if (!millivolts) return out;
  const double ph = found.ph(millivolts->value());
  const auto& of_lot = *lot::ph.valid;
  if (ph < of_lot.low || ph > of_lot.high)
    throw InputError(fmt::format("the sample comes to pH {:.2f}, which no must or wine has", ph),
                     "look at the millivolts, their sign and the buffers");
  out.result(sample_ph, ph * ph_unit, found.scatter / found.slope, "scatter of the buffers");
  out.change(lot::ph, ph * ph_unit);
  if (in.figures_only()) return out;
  if (ph < found.low || ph > found.high)
    out.note(fmt::format(
        "pH {:.2f} lies outside the buffers ({:.2f} to {:.2f}): the line is carried on; wine wants a buffer "
        "below it, such as tetroxalate or saturated tartrate",
        ph, found.low, found.high));
  out.note("two decimals of a buffer are sure to about 0.01 pH; write 'buffer pH' with a ± where that matters");
  return out;
}

}  // namespace vatwright::control::meter
