#include "plugins/acid/treatment.hpp"

#include "plugins/chemistry/bracketed.hpp"
#include "units/print.hpp"

#include <cmath>

namespace vatwright::acid {
namespace {

// What a pH meter and a burette show (common practice, no source).
constexpr double close_ph = 0.01;
constexpr Acidity close_titratable = 0.67 * milliequivalent_per_litre;  // 0.05 g/L as tartaric acid
// The arithmetic is not exact: pH, or meq/L.
constexpr double slack = 1e-5;

}  // namespace

Target::Target(const Inputs& in) : on_ph_(in.has(target_ph)) {
  if (on_ph_)
    ph_ = in[target_ph];
  else
    titratable_ = in[target_titratable];
}

Acidity Target::excess(const Wine& wine, const chemistry::Composition& after) const {
  return on_ph_ ? chemistry::base_to(after, ph_, wine.medium) : titratable(wine, after) - titratable_;
}

double Target::close() const { return on_ph_ ? close_ph : close_titratable.value(); }

std::string Target::text(double coherent) const {
  return on_ph_ ? "pH " + print_number(coherent, 2) : print(coherent, target_titratable.unit, 2);
}

std::optional<MassConcentration> solve(const Wine& wine, const Target& target, const Course& course,
                                       MassConcentration most) {
  const auto excess = [&](double dose) {
    return target.excess(wine, course(coherent<MassConcentration>(dose))).value();
  };
  const double none = excess(0);
  if (std::abs(none) < slack) return MassConcentration{};
  if ((none > 0) == (excess(most.value()) > 0)) return std::nullopt;
  return coherent<MassConcentration>(chemistry::kernel::bracketed_root(excess, 0, most.value()));
}

void closing_check(const Target& target, const State& exact, const State& dosed, Outcome& out) {
  const double got = target.reached(dosed);
  const bool adds_up = std::abs(target.reached(exact) - target.wanted()) < slack;
  const bool fine = std::abs(got - target.wanted()) <= target.close();
  out.checks.push_back({.name = "closing check: " + std::string(target.key().name),
                        .holds = adds_up && fine,
                        .value = Figure{target.key().unit, 2, got},
                        .limit = Figure{target.key().unit, 2, target.wanted()},
                        .relation = "equals",
                        .source = "forward model on the dosed lot",
                        .remedy = !adds_up ? "report this as a fault of the program"
                                  : !fine  ? "the dose is too small to be weighed well: treat a larger lot"
                                           : ""});
}

void missed_check(const Target& target, const State& now, std::string remedy, Outcome& out) {
  out.checks.push_back({.name = std::string(target.key().name),
                        .holds = false,
                        .value = Figure{target.key().unit, 2, target.reached(now)},
                        .limit = Figure{target.key().unit, 2, target.wanted()},
                        .relation = "equals",
                        .source = "as asked for",
                        .remedy = std::move(remedy)});
}

}  // namespace vatwright::acid
