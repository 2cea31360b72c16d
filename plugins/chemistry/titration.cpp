#include "plugins/chemistry/titration.hpp"

#include "units/error.hpp"
#include "units/print.hpp"

namespace vatwright::chemistry {

Volume net_titrant(Volume titrant, Volume blank) {
  if (blank > titrant)
    throw InputError(
        "the blank used more titrant than the sample: " + print(blank, "mL", 2) + " against " + print(titrant, "mL", 2),
        "look whether the two are swapped");
  return titrant - blank;
}

}  // namespace vatwright::chemistry
