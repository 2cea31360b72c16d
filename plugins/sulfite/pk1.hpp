// Which pK1 a calculation goes by, and what the other models would have said.
#pragma once

#include "host/plugin/plugin.hpp"

#include <vector>

namespace vatwright::sulfite {

struct NamedPk1 {
  Fraction value;
  std::string name;
  std::string source;
};

// The pK1 that was given, else the one of the chosen model. Notes in `out` which one ran and what
// was assumed for it. Throws InputError when the OIV model is chosen outside its range.
NamedPk1 chosen_pk1(const Inputs& in, Outcome& out);

// The models that did not run. The OIV one is read at the edge of its table, with a note, for a
// temperature outside it, and left out, with a note, beyond 20 % vol.
std::vector<NamedPk1> other_pk1s(const Inputs& in, Outcome& out);

// The molecular sulfur dioxide of each of the other models beside this sheet's, and a note where
// any of them comes to the nose. `used` is what chosen_pk1 gave.
void compare_molecular(const Inputs& in, MassConcentration free_so2, const NamedPk1& used, Outcome& out);

// Two figures further apart than the trade's rules usually are: by more than a fifth. Half of the weight of the salt
// is always 15 % more than its formula says.
bool matters(double here, double there);

}  // namespace vatwright::sulfite
