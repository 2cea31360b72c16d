#include "plugins/chemistry/refractometer.hpp"

#include "plugins/chemistry/bracketed.hpp"
#include "plugins/chemistry/known_range.hpp"
#include "units/error.hpp"
#include "units/print.hpp"

#include <algorithm>
#include <limits>

namespace vatwright::chemistry {
namespace {

constexpr double blank = std::numeric_limits<double>::quiet_NaN();

// Where a value lies among rising nodes: the node below it, and how far into the interval.
struct Place {
  std::size_t below;
  double into;
};
template <std::size_t N>
Place place(const std::array<double, N>& nodes, double value) {
  std::size_t above = 1;
  while (above + 1 < N && value > nodes[above] + slack) ++above;
  const double into = (value - nodes[above - 1]) / (nodes[above] - nodes[above - 1]);
  // At a node the neighbour has no say, be it a blank.
  if (into < slack) return {above - 1, 0};
  return {above - 1, into > 1 - slack ? 1 : into};
}

double between(double low, double high, double into) {
  if (into == 0) return low;
  return into == 1 ? high : low + (high - low) * into;
}

}  // namespace

const RefractometerTable oiv_refractometer_table{
    {10, 15, 20, 25, 30, 35, 40, 50, 60, 70},
    {5, 10, 12, 14, 15, 16, 17, 20},
    {{{-0.82, -0.87, -0.92, -0.95, -0.99, blank, blank, blank, blank, blank},
      {-0.59, -0.62, -0.65, -0.67, -0.69, -0.71, -0.72, -0.74, -0.75, -0.75},
      {-0.49, -0.51, -0.53, -0.55, -0.56, -0.57, -0.58, -0.60, -0.61, -0.60},
      {-0.38, -0.39, -0.40, -0.42, -0.43, -0.44, -0.44, -0.45, -0.46, -0.46},
      {-0.32, -0.33, -0.34, -0.35, -0.36, -0.37, -0.37, -0.38, -0.38, -0.38},
      {-0.26, -0.27, -0.28, -0.28, -0.29, -0.30, -0.30, -0.31, -0.31, -0.31},
      {-0.20, -0.20, -0.21, -0.21, -0.22, -0.22, -0.23, -0.23, -0.23, blank},
      {0, 0, 0, 0, 0, 0, 0, 0, 0, 0}}}};

MassFraction sucrose_by_refraction(Fraction refractive_index) {
  const double n = refractive_index.value();
  if (!within(n, least_refractive_index.value(), most_refractive_index.value()))
    throw InputError("a refractive index of a sucrose solution at 20 °C lies between " +
                         print_number(least_refractive_index.value(), 4) + " and " +
                         print_number(most_refractive_index.value(), 4) + ", not at " + print_number(n, 4),
                     "look at the reading");
  return std::max(kernel::brix_of_refractive_index(n), 0.0) * percent_mass;
}

Fraction sucrose_refractive_index(MassFraction sucrose) {
  const double brix = sucrose / percent_mass;
  if (!within(brix, 0, 70))
    throw InputError(
        "the refraction of sucrose solutions is known here from 0 to 70 % mass, not at " + print(sucrose, "% mass", 2),
        "look at the figure and at its unit");
  return coherent<Fraction>(kernel::bracketed_root([&](double n) { return kernel::brix_of_refractive_index(n) - brix; },
                                                   least_refractive_index.value(), most_refractive_index.value()));
}

MassFraction corrected_refraction(MassFraction reading, Temperature temperature) {
  const auto& [readings, temperatures, correction] = oiv_refractometer_table;
  const double brix = reading / percent_mass;
  const double t = degrees_celsius(temperature);
  double added = blank;
  if (within(brix, readings.front(), readings.back()) && within(t, temperatures.front(), temperatures.back())) {
    const Place column = place(readings, brix);
    const Place row = place(temperatures, t);
    const auto along = [&](const auto& cells) {
      return between(cells[column.below], cells[column.below + 1], column.into);
    };
    added = between(along(correction[row.below]), along(correction[row.below + 1]), row.into);
  }
  if (std::isnan(added))
    throw InputError(
        "the correction of OIV-MA-AS2-02 is known here from 10 to 70 % mass and 5 to 20 °C (to 30 % mass "
        "below 10 °C, to 60 % mass above 16 °C), not at " +
            print(reading, "% mass", 1) + " and " + print(temperature, "°C", 1),
        "bring the sample to 20 °C and read it again");
  return (brix + added) * percent_mass;
}

}  // namespace vatwright::chemistry
