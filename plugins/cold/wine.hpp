// The lot as the acid-base engine sees it.
#pragma once

#include "host/plugin/plugin.hpp"
#include "plugins/chemistry/inference.hpp"

namespace vatwright::cold {

Ph endpoint_of(const Inputs& in);

// The wine as the laboratory had it when pH and titratable acidity were read.
chemistry::Medium bench_medium(const Inputs& in);

// The composition that has the lot's pH, titratable acidity, acids and ions; notes what the acid that
// was not measured is taken for. Throws InputError when the readings cannot be together.
chemistry::Composition composition_of(const Inputs& in, const chemistry::Medium& bench, Outcome& out);

}  // namespace vatwright::cold
