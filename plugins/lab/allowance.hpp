// What a rule still allows: most limits count all treatments of one lot together.
#pragma once

#include "host/facts/account.hpp"
#include "host/plugin/inputs.hpp"
#include "host/plugin/lot.hpp"
#include "host/plugin/outcome.hpp"
#include "units/error.hpp"
#include "units/print.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace vatwright::lab {

// What was added of a substance so far; none where the lot does not say.
inline MassConcentration added_before(const Readings& lot, std::string_view substance) {
  return lot.amount(lot::treated_with, substance);
}

// Throws InputError when that and `more` are more than any wine is given: a slip of the pen.
inline void check_total(const Readings& lot, std::string_view substance, MassConcentration more) {
  constexpr MassConcentration most = lot::treated_with.valid->high * milligram_per_litre;
  const MassConcentration total = added_before(lot, substance) + more;
  if (total <= most) return;
  throw InputError(print(total, "g/L", 0) + " of " + std::string(substance) + " in all, with what was added before",
                   "no wine is given more than " + print(most, "g/L", 0) +
                       ": look at the figures and their units, and at 'treated with'");
}

// Says of a lot that does not state what a limit counts that none was taken. `counts`: "what was added before counts".
inline void note_taken_as_none(const Readings& lot, const Input& account, std::string_view counts, Outcome& out) {
  if (const auto silent = facts::silent_on(lot, account); !silent.empty())
    out.note(std::string(counts) + "; " + facts::states_nothing(silent) + " under '" + std::string(account.name) +
             "', which is taken as none");
}
inline void note_none_added_before(const Readings& lot, Outcome& out) {
  note_taken_as_none(lot, lot::treated_with, "what was added before counts too", out);
}
// Says so of a substance that no rule set bounds.
inline void note_unlimited(std::string_view substance, Outcome& out) {
  out.note("no rule set of this recipe gives a limit for " + std::string(substance) +
           ": see its text whether it may be used at all");
}

// Adds `more` to what the lot keeps of a substance, where it keeps an account of that.
inline void keep_account(std::string_view substance, MassConcentration more, Outcome& out) {
  if (lot::is_counted(substance)) out.raise(lot::treated_with, substance, more);
}

template <class Quantity>
struct Allowance {
  const Limit<Quantity>* limit = nullptr;
  std::optional<Bound<Quantity>> bound{};  // nothing: no rule says
  Quantity before{};                       // of what the rule counts, there before
  double share = 1;                        // what the rule counts in one mass of the substance

  Quantity counted(Quantity more) const { return before + more * share; }
  bool passed_by(Quantity more) const { return bound && !bound->met_by(counted(more)); }
  // Never to be given, however little.
  bool forbids() const { return bound && !(bound->value > Quantity{}); }
  // The most of the substance that may still be given; infinite where no rule says.
  Quantity room() const {
    if (!bound) return Quantity::from_value(HUGE_VAL);
    // What must stay below a figure may come near it.
    constexpr double near = 1 - 1e-6;
    const Quantity most = bound->row.sense == Sense::below ? Quantity(bound->value * near) : bound->value;
    return std::max<Quantity>(most - before, Quantity{}) / share;
  }
  void hold(Quantity more, int decimals, std::string remedy, Outcome& out) const {
    if (bound) out.hold(*limit, *bound, counted(more), decimals, std::move(remedy));
  }
};

// All that bounds one dose.
using Law = std::vector<Allowance<MassConcentration>>;

inline bool passed_by(const Law& law, MassConcentration more) {
  return std::any_of(law.begin(), law.end(), [&](const auto& held) { return held.passed_by(more); });
}
inline bool forbids(const Law& law) {
  return std::any_of(law.begin(), law.end(), [](const auto& held) { return held.forbids(); });
}
// The most that all of them leave; infinite where no rule says.
inline MassConcentration room(const Law& law) {
  auto most = MassConcentration::from_value(HUGE_VAL);
  for (const auto& held : law) most = std::min(most, held.room());
  return most;
}
inline void hold(const Law& law, MassConcentration more, int decimals, const std::string& remedy, Outcome& out) {
  for (const auto& held : law) held.hold(more, decimals, remedy, out);
}

}  // namespace vatwright::lab
