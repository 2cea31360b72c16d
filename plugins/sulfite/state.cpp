#include "plugins/sulfite/state.hpp"

#include "plugins/sulfite/keys.hpp"
#include "units/parse.hpp"
#include "units/print.hpp"

namespace vatwright::sulfite {

Readings read_so2(const Inputs& in) {
  Readings read{in.get(lot::free_so2), in.get(lot::total_so2)};
  if (!read.free || !read.total || *read.free <= *read.total) return read;
  if (!in.figures_only())
    throw InputError(
        "free SO2 is above total SO2: " + print(*read.free, "mg/L", 1) + " of " + print(*read.total, "mg/L", 1),
        "free is a part of total: measure both again");
  read.total = read.free;
  return read;
}

void check_limits(const Inputs& in, std::optional<MassConcentration> free_so2,
                  std::optional<MassConcentration> total_so2, Outcome& out) {
  static constexpr const char* remedy = "do not add more; a blend with a lot that has less brings it down";
  if (const auto bound = in[total_limit]) {
    if (total_so2)
      out.hold(total_limit, *bound, *total_so2, 1, remedy);
    else
      out.note("total SO2 was not given: its limit was not checked");
  }
  if (const auto bound = in[declaration]; bound && total_so2 && !bound->met_by(*total_so2) && !in.figures_only())
    out.note("the label has to say 'contains sulfites', in the words of the place: " + bound->row.rules +
             " asks for it " + (bound->row.sense == Sense::below ? "from " : "above ") +
             print_number(parse_unit(declaration.unit).number(bound->value.value()), 0) + " " +
             std::string(declaration.unit) + " of total SO2 [" + bound->row.source + "]");
  if (const auto bound = in[free_limit]; bound && free_so2)
    out.hold(free_limit, *bound, *free_so2, 1,
             is_ceiling(bound->row.sense) ? remedy : "see sulfite.addition for the dose");
  if (!free_so2 && in[free_limit]) out.note("free SO2 was not given: its limit was not checked");
}

}  // namespace vatwright::sulfite
