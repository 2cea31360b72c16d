#include "plugins/chemistry/statistics/distributions.hpp"

#include <boost/math/distributions/fisher_f.hpp>
#include <boost/math/distributions/normal.hpp>
#include <boost/math/distributions/students_t.hpp>
#include <boost/math/quadrature/gauss_kronrod.hpp>
#include <boost/math/special_functions/gamma.hpp>
#include <boost/math/tools/toms748_solve.hpp>

#include <cmath>
#include <cstdint>

namespace vatwright::statistics {
namespace {

namespace bm = boost::math;

constexpr double far = 9;        // standard deviations beyond which nothing is left
constexpr double widest = 14.0;  // range of some dozens of readings
constexpr unsigned deep = 6;
constexpr double digits = 1e-11;

template <class Function>
double integral(Function f, double from, double to) {
  return bm::quadrature::gauss_kronrod<double, 31>::integrate(f, from, to, deep, digits);
}

double below(double z) { return bm::cdf(bm::normal(), z); }

// The chance that n readings range over no more than `width`.
double chance_of_range(std::size_t n, double width) {
  const auto all_above = [&](double z) {
    return bm::pdf(bm::normal(), z) * std::pow(below(z + width) - below(z), static_cast<double>(n - 1));
  };
  return static_cast<double>(n) * integral(all_above, -far, far);
}

}  // namespace

double student_two_sided(double error, std::size_t freedom) {
  return bm::quantile(bm::complement(bm::students_t(static_cast<double>(freedom)), error / 2));
}
double student_one_sided(double error, std::size_t freedom) {
  return bm::quantile(bm::complement(bm::students_t(static_cast<double>(freedom)), error));
}

double range_at_most(std::size_t n) {
  constexpr double chance = 0.95;
  std::uintmax_t turns = 100;
  const auto [low, high] = bm::tools::toms748_solve([&](double w) { return chance_of_range(n, w) - chance; }, 0.01,
                                                    widest, bm::tools::eps_tolerance<double>(40), turns);
  return (low + high) / 2;
}

double mean_range(std::size_t n) {
  return integral([&](double w) { return 1 - chance_of_range(n, w); }, 0, widest);
}

double standard_of_range(std::size_t n) {
  const double squares = 2 * integral([&](double w) { return w * (1 - chance_of_range(n, w)); }, 0, widest);
  const double mean = mean_range(n);
  return std::sqrt(squares - mean * mean);
}

double mean_standard(std::size_t n) {
  const auto k = static_cast<double>(n);
  return std::sqrt(2 / (k - 1)) / bm::tgamma_delta_ratio((k - 1) / 2, 0.5);
}

double grubbs_critical(std::size_t n, double error) {
  const auto k = static_cast<double>(n);
  const double t = student_one_sided(error / (2 * k), n - 2);
  return (k - 1) / std::sqrt(k) * std::sqrt(t * t / (k - 2 + t * t));
}

double cochran_critical(std::size_t groups, std::size_t n, double error) {
  const auto p = static_cast<double>(groups), each = static_cast<double>(n - 1);
  const double f = bm::quantile(bm::complement(bm::fisher_f(each, (p - 1) * each), error / p));
  return 1 / (1 + (p - 1) / f);
}

}  // namespace vatwright::statistics
