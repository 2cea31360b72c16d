// What a dose of acid and one of carbonate have alike: each is a job of lab::come_about().
#pragma once

#include "plugins/acid/law.hpp"
#include "plugins/lab/dose.hpp"

#include <string>
#include <utility>

namespace vatwright::acid {

// `Own` derives from it, and says how the rest goes:
//
//   treatment, other_way        "addition", and the calculation that moves a lot the other way
//   write(dosed, state)         results, and what changes of the lot
//   allowed_text()              how much the limits allow
//   dosed(weighed)              pure, in the volume of the lot
//   weigh(weighed, dosed)       the addition of the sheet
//   tell(dosed, state)          notes and tables beside it
template <class Own, class Question>
struct Dosing {
  const Inputs& in;
  Question& q;
  std::optional<MassConcentration> amount;  // that was stated
  Target target;
  const Law& law;
  Outcome& out;

  bool enough() const { return !amount && target.met_by(q.after({})); }

  void leave() {
    const State now = nothing();
    if (in.figures_only()) return;
    out.checks.push_back(target.met(now));
    law.hold({}, out);
    note_enough(target, now, Own::other_way, out);
  }

  void refuse(MassConcentration exact) {
    const State now = nothing();
    if (in.figures_only()) return;
    law.refuse(exact, "nothing was dosed: " + own().allowed_text(), out);
    out.checks.push_back(
        target.met(now, "nothing was dosed, because the " + std::string(Own::treatment) + " would pass a limit"));
  }

  bool keeps(MassConcentration exact, Mass weighed) const { return law.keeps(exact, own().dosed(weighed)); }

  void withhold(Check closing) {
    nothing();
    if (in.figures_only()) return;
    out.checks.push_back(std::move(closing));
    law.hold({}, out);
  }

  void give(MassConcentration, Mass weighed, Check closing) {
    const MassConcentration given = own().dosed(weighed);
    const State state = q.after(given);
    own().write(given, state);
    if (given > MassConcentration{}) own().weigh(weighed, given);
    if (in.figures_only()) return;
    out.checks.push_back(std::move(closing));
    law.hold(given, out);
    if (given > MassConcentration{})
      own().tell(given, state);
    else
      out.note(std::string(lab::less_than_is_weighed));
  }

 private:
  Own& own() { return static_cast<Own&>(*this); }
  const Own& own() const { return static_cast<const Own&>(*this); }

  // The lot stays as it is.
  State nothing() {
    State now = q.after({});
    own().write({}, now);
    return now;
  }
};

}  // namespace vatwright::acid
