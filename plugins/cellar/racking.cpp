#include "plugins/cellar/racking.hpp"

#include "units/print.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace vatwright::cellar::racking {

Outcome run(const Inputs& in) {
  const Volume whole = in[lot::volume];
  const Volume stays = in.has(lees) ? in[lees] : in[lees_share] * std::max(0.0, 1 + in[guessed_lees].value()) * whole;
  const Volume wine = whole - stays - in[losses];
  if (!(wine > Volume{}))
    throw InputError(fmt::format("{} of lees and {} of losses leave nothing of {}", print(stays, "L", 0),
                                 print(in[losses], "L", 0), print(whole, "L", 0)),
                     "'lees' and 'losses' are volumes; look at their units");
  Outcome out;
  out.result(clear, wine);
  out.result(left, stays);
  if (in.has(found))
    out.result<Volume>(won, stays * std::clamp((in[found] + in[guessed_wine_in_lees]).value(), 0.0, 1.0));
  out.result<Fraction>(lost, (whole - wine) / whole);
  out.change(lot::volume, wine);
  if (in.figures_only()) return out;
  out.reagents = {"carbon dioxide"};
  out.task(fmt::format("rack {} off {} of lees; keep air out of the hose, the pump and the empty vessel",
                       print(wine, "L", 0), print(stays, "L", 0)));
  if (in.has(lees_share)) out.note("the lees are a guess: dip the new vessel, and go on with what it holds");
  out.note("racking takes up oxygen and drives off some free sulfur dioxide: measure it again afterwards");
  out.note("never lean into a tank to clean it out: air first, a meter, a permit and a second person outside");
  return out;
}

}  // namespace vatwright::cellar::racking
