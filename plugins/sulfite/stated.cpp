#include "plugins/sulfite/stated.hpp"

#include "plugins/sulfite/addition.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

#include <string>

namespace vatwright::sulfite::addition {
namespace {

bool by_fruit(const Inputs& in) { return in.has(stated_on_fruit); }

bool by_liquid(const Inputs& in) { return in.has(stated_liquid); }

// Of whichever it is, in the lot.
MassConcentration in_the_lot(const Inputs& in) {
  if (by_liquid(in)) return in[stated_liquid] * in[strength];
  if (!by_fruit(in)) return in[stated];
  return in[stated_on_fruit] * in[fruit] / in[lot::volume];
}

// So many times the amount as it was written, in its own unit.
std::string as_written(const Inputs& in, double times) {
  if (by_fruit(in)) return print(Fraction(in[stated_on_fruit] * times), stated_on_fruit.unit, 2);
  return print(MassConcentration(in[stated] * times), stated.unit, 1);
}

void check_belongs(const Inputs& in) {
  if (by_liquid(in) && in[substance].id != solution)
    throw InputError("'add liquid' is given, but " + in[substance].id + " is no liquid",
                     "say 'substance: sulfur dioxide solution', or give 'add'");
  if (by_liquid(in) && !in.has(strength))
    throw InputError("'add liquid' needs the strength of the solution",
                     "give 'strength', such as 60 g/L, from its label");
  if (by_liquid(in) && in.has(stated_as))
    throw InputError("'add as' is given beside a volume of the solution",
                     "its strength says what it holds: leave it out");
  const bool states = in.has(stated) || by_fruit(in);
  if (in.has(stated_as) && !states)
    throw InputError("'add as' is given, but no amount to add", "write 'add: 30 mg/L', or leave it out");
  if (in.has(fruit) && !by_fruit(in))
    throw InputError("'fruit' is given, but no amount for it", "write 'add on fruit: 4 g/100 kg', or leave it out");
  if (by_fruit(in) && !in.has(fruit))
    throw InputError("'add on fruit' misses 'fruit' (mass of grapes that the lot is made of)",
                     "add it, such as 'fruit: 4.2 t'");
}

bool is_of_product(const Inputs& in, double share) {
  const auto& name = in[substance].id;
  // What is sulfur dioxide by itself leaves nothing open; a solution is measured out by what it holds.
  const bool one_reading = name == gas || name == solution;
  const auto said = in.get(stated_as);  // empty where it was not
  if (name == solution && said == as_product)
    throw InputError("of a solution no mass is stated", "state its sulfur dioxide: 'add as: SO2'");
  if (!said.empty()) return said == as_product && !one_reading;
  if (one_reading) return false;
  throw InputError(fmt::format("{0} can be of SO2, which is {1} of {2}, or of {2}, which brings {3} of SO2",
                               as_written(in, 1), as_written(in, 1 / share), name, as_written(in, share)),
                   fmt::format("say which: 'add as: SO2' or 'add as: product' ({})", name));
}

}  // namespace

MassConcentration stated_so2(const Inputs& in, Outcome& out) {
  check_belongs(in);
  if (by_liquid(in)) return in_the_lot(in);
  if (!in.has(stated) && !by_fruit(in)) return {};
  const double share = in[substance].active_share;
  const bool product = is_of_product(in, share);
  const MassConcentration so2 = in_the_lot(in) * (product ? share : 1.0);
  if (in.figures_only()) return so2;
  const std::string whole = by_fruit(in) ? " of fruit" : "";
  out.note(fmt::format("{}{} is taken as {}: it brings {} of SO2 to the lot", as_written(in, 1), whole,
                       product ? in[substance].id : "SO2", print(so2, "mg/L", 1)));
  return so2;
}

}  // namespace vatwright::sulfite::addition
