#include "plugins/control/recovery.hpp"

#include <cmath>

namespace vatwright::control::recovery {
namespace {

double doubt_of(const Inputs& in, const Input& key) {
  const Value* value = in.find(key);
  return value == nullptr ? 0 : value->uncertainty;
}

}  // namespace

Outcome run(const Inputs& in) {
  const auto again = in[found] - in[native];
  Outcome out;
  out.result(recovered, Fraction(again / in[added]));
  out.result(bias, again - in[added]);
  const double u = std::hypot(doubt_of(in, found), doubt_of(in, native), doubt_of(in, added));
  if (!(u > 0)) {
    out.note("without a ± on the readings nobody can say whether this bias is more than chance");
    return out;
  }
  constexpr double coverage = 2;
  const auto off = coherent<MassConcentration>(std::abs((again - in[added]).value()));
  const bool holds = off.value() <= coverage * u;
  out.checks.push_back(
      {.name = "the bias is within its doubt",
       .holds = holds,
       .value = figure(off, "mg/L", 3),
       .limit = figure(coherent<MassConcentration>(coverage * u), "mg/L", 3),
       .relation = "at most",
       .source = std::string(bias_test.title),
       .remedy = holds ? "" : "look for what is lost or added on the way; a factor that mends it hides it"});
  return out;
}

}  // namespace vatwright::control::recovery
