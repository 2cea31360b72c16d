#include "plugins/lab/left_must.hpp"

namespace vatwright::lab {

void leave_must(const Inputs& in, Outcome& out) {
  if (in.get(lot::stage) == "wine") return;
  for (const Input* key : near_enough_of_wine) out.carry_over(*key);
  for (const Input* key : unknown_of_wine) out.forget(*key);
  if (in.figures_only()) return;
  out.note(
      "what was read of the must is no reading of the wine: its pH, acids, potassium, calcium, sodium, copper and "
      "total SO2 are taken "
      "on until you measure them, and no dose rests on them before; nitrogen, free SO2, acetaldehyde, glycerol, "
      "turbidity, "
      "conductivity and absorbance are unknown. A lot that was read as a wine says 'stage: wine'");
}

}  // namespace vatwright::lab
