// Of which amount of an acid pH and titratable acidity are those that were measured: the kernel behind inference.hpp.
#pragma once

#include "plugins/chemistry/balance.hpp"

#include <optional>

namespace vatwright::chemistry::kernel {

// What is known, and a mixture of acids of which there is an unknown amount beside it, mol/L; the charge of the
// unmeasured strong ions (`rest`) is unknown too, and is not read.
struct Line {
  Amounts known, more;
};

struct Reading {
  double ph, endpoint;
  double titratable;  // of the degassed sample, mol/L
};

struct Crossing {
  double times;        // of `more`; negative where the known titrates to more than was measured
  double rest;         // mol/L
  double at_endpoint;  // ionic strength, mol/L
};

// The one point of the line with that reading. At given ionic strengths both are linear in the amounts, so that only
// these are found by repetition. Nothing where `more` does not titrate from that pH to that end point, or the ionic
// strengths do not settle.
std::optional<Crossing> crossing(const Line& line, const Reading& reading, const Medium& medium);

}  // namespace vatwright::chemistry::kernel
