#include "plugins/acid/treatment.hpp"

#include "plugins/chemistry/bracketed.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

#include <cmath>

namespace vatwright::acid {
namespace {

// What a pH meter and a burette show (common practice, no source).
constexpr double close_ph = 0.01;
constexpr Acidity close_titratable = 0.67 * milliequivalent_per_litre;  // 0.05 g/L as tartaric acid
// Half of the last figure that a sheet shows: the rounding of an earlier dose leaves less than that.
constexpr double unseen_ph = 0.005;
constexpr Acidity unseen_titratable = 0.067 * milliequivalent_per_litre;  // 0.005 g/L as tartaric acid
// The arithmetic is not exact: pH, or meq/L.
constexpr double slack = 1e-5;

}  // namespace

Target::Target(const Inputs& in, Moves acidity) : acidity_(acidity), on_ph_(in.has(target_ph)) {
  if (on_ph_)
    ph_ = in[target_ph];
  else
    titratable_ = in[target_titratable];
}

Acidity Target::excess(const Wine& wine, const chemistry::Composition& after) const {
  return on_ph_ ? chemistry::base_to(after, ph_, wine.medium) : titratable(wine, after) - titratable_;
}

bool Target::met_by(const State& state) const {
  return falls() ? reached(state) <= wanted() + unseen() : reached(state) >= wanted() - unseen();
}

double Target::unseen() const { return on_ph_ ? unseen_ph : unseen_titratable.value(); }

double Target::close() const { return on_ph_ ? close_ph : close_titratable.value(); }

std::string Target::text(double coherent) const {
  return on_ph_ ? "pH " + print_number(coherent, 2) : print(coherent, target_titratable.unit, 2);
}

std::optional<MassConcentration> solve(const Wine& wine, const Target& target, const Course& course,
                                       MassConcentration most) {
  const auto excess = [&](double dose) {
    return target.excess(wine, course(coherent<MassConcentration>(dose))).value();
  };
  if ((excess(0) > 0) == (excess(most.value()) > 0)) return std::nullopt;
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

void target_check(const Target& target, const State& now, std::string remedy, Outcome& out) {
  const bool holds = target.met_by(now);
  out.checks.push_back({.name = std::string(target.key().name),
                        .holds = holds,
                        .value = Figure{target.key().unit, 2, target.reached(now)},
                        .limit = Figure{target.key().unit, 2, target.wanted()},
                        .relation = target.falls() ? "at most" : "at least",
                        .source = std::string(as_asked_for),
                        .remedy = holds ? std::string() : std::move(remedy)});
}

void note_enough(const Target& target, const State& now, std::string_view other_way, Outcome& out) {
  const auto has = target.text(target.reached(now)), wanted = target.text(target.wanted());
  const auto already = fmt::format("{} enough already: the lot has {}", target.falls() ? "low" : "high", has);
  if (has == wanted)
    out.note(already + ", as asked for");
  else
    out.note(fmt::format("{}, and the target is {}; what brings it {} to that is {}", already, wanted,
                         target.falls() ? "up" : "down", other_way));
}

}  // namespace vatwright::acid
