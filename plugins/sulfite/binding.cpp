#include "plugins/sulfite/binding.hpp"

#include "plugins/chemistry/binding.hpp"
#include "plugins/chemistry/sulfite.hpp"
#include "plugins/sulfite/pk1.hpp"
#include "plugins/sulfite/state.hpp"

#include <algorithm>
#include <cmath>

namespace vatwright::sulfite::binding {
namespace {

// The constants are from memory and spread by a factor of two.
constexpr double usual_spread = 0.5;

chemistry::Binders read_binders(const Inputs& in) {
  chemistry::Binders binders{in[lot::acetaldehyde], in[pyruvic_acid], in[oxoglutaric_acid], in[glucose]};
  const auto sum = binders.acetaldehyde + binders.pyruvic_acid + binders.oxoglutaric_acid + binders.glucose;
  if (sum == MassConcentration{})
    throw InputError("nothing that binds sulfur dioxide was given",
                     "give at least one of acetaldehyde, pyruvic acid, 2-oxoglutaric acid, glucose");
  return binders;
}

}  // namespace

Outcome run(const Inputs& in) {
  const Readings read = read_so2(in);
  const auto measured = read.free;
  const auto total = read.total.value();
  auto binders = read_binders(in);
  const double in_this_wine = std::max(0.0, 1 + in[what_binds].value());
  for (auto* each : {&binders.acetaldehyde, &binders.pyruvic_acid, &binders.oxoglutaric_acid, &binders.glucose})
    *each *= in_this_wine;

  Outcome out;
  const auto molecular_share = chemistry::molecular_share(in[lot::ph], chosen_pk1(in, out).value);
  const auto free = chemistry::free_so2(binders, total, molecular_share);
  const auto bound = chemistry::bound_so2(binders, free, molecular_share);
  out.result(bound_so2, bound);
  out.result(free_so2, free);
  const bool closes = std::abs((free + bound - total).value()) <= 1e-6 * total.value();
  out.checks.push_back({.name = "closing check: free and bound add up to the total",
                        .holds = closes,
                        .value = figure(free + bound, "mg/L", 1),
                        .limit = figure(total, "mg/L", 1),
                        .relation = "equals",
                        .source = "mass balance",
                        .remedy = closes ? "" : "report this as a fault of the program"});
  if (measured)
    out.opinions.push_back(
        {.name = "free SO2 as measured",
         .here = figure(free, "mg/L", 1),
         .there = figure(*measured, "mg/L", 1),
         .matters = std::abs((free - *measured).value()) > usual_spread * std::max(free, *measured).value(),
         .source = "the lot's analysis"});
  out.note(
      "go by the measured free SO2: the constants are from memory and spread by up to a factor of two, and "
      "anthocyanins and other compounds that bind are left out");
  return out;
}

}  // namespace vatwright::sulfite::binding
