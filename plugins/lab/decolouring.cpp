#include "plugins/lab/decolouring.hpp"

#include "units/print.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace vatwright::lab {

bool colour_stays(const Inputs& in, std::string_view substance, Outcome& out) {
  if (std::find(std::begin(decolouring), std::end(decolouring), substance) == std::end(decolouring)) return true;
  const auto most = in[transmittance_limit];
  if (!most) return true;
  const auto found = in.get(transmittance);
  if (!found) {
    if (!in.figures_only())
      out.note(
          fmt::format("{} asks that colour stays: {} of the light at most goes through the treated wine. Measure "
                      "the glass of the bench trial and give its 'transmittance' [{}]",
                      most->row.rules, print(most->value, "%", 0), most->row.source));
    return true;
  }
  out.hold(transmittance_limit, *most, *found, 1, "nothing is given: take less, until colour stays in the glass");
  return most->met_by(*found);
}

}  // namespace vatwright::lab
