// What a dose of acid and one of carbonate have alike.
#pragma once

#include "plugins/acid/law.hpp"
#include "plugins/lab/dose.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

#include <optional>
#include <string>
#include <string_view>

namespace vatwright::acid {

template <class Question>
struct Dosing : lab::Job<Target> {
  static constexpr std::string_view model = "reckoned again with the amount to be weighed",
                                    way_out = "treat a larger lot";
  Question& q;
  const Law& law;
  std::optional<MassConcentration> amount;  // that was stated
  double share = 1;                         // pure, in what is weighed

  Mass weighed(MassConcentration dosed) const { return dosed * in[lot::volume] / share; }
  MassConcentration dosed(Mass weighed) const { return weighed * share / in[lot::volume]; }
  Mass measured(MassConcentration exact, lab::Rounding rounding) const {
    return lab::rounded<Mass>(weighed(exact), rounding, to_balance);
  }
  State reached(MassConcentration dosed) const { return q.after(dosed); }
  State reached(Mass weighed) const { return q.after(dosed(weighed)); }

  // A dose that rounds to nothing is held as it was asked for.
  bool permits(MassConcentration exact, Mass weighed) const { return lab::any(weighed) || !law.forbids(exact); }
  bool keeps(Mass weighed) const { return !law.forbids(dosed(weighed)); }
  void hold(Mass weighed) const { law.hold(dosed(weighed), out); }
  void withhold() const { law.hold({}, out); }

  // Of doses up to `most`.
  std::string allowed_text(std::string_view substance, MassConcentration most) const {
    most = lab::down_to_step<MassConcentration>(law.allowed(most), 0.01 * gram_per_litre);
    if (!lab::any(most)) return fmt::format("the limits allow no {} for this lot", substance);
    const State there = q.after(most);
    return fmt::format("the limits allow at most {} of {}, which gives pH {} and {}", print(most, "g/L", 2), substance,
                       print_number(there.ph.value(), 2), print(there.titratable, titratable_after.unit, 2));
  }
  void refuse(MassConcentration exact, std::string_view treatment, const std::string& allowed) const {
    law.refuse(exact, "nothing was dosed: " + allowed, out);
    out.checks.push_back(
        aim.met(q.after({}), fmt::format("nothing was dosed, because the {} would pass a limit", treatment)));
  }
};

}  // namespace vatwright::acid
