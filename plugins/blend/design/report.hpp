// The answer of a design, for people.
#pragma once

#include "plugins/blend/design/search.hpp"

namespace vatwright::blend::design {

// Results, the checks of the bounds, and the tables: shares, predicted analysis, what binds.
void report(const Problem& problem, const Found& found, Outcome& out);

// "pH 0.02, sugar 0.5 g/L": of the figures of the profile.
std::string steps_in_words(const Problem& problem);

// Failing checks that name what clashes, and how far each bound could be met.
void report_clash(const NoBlend& none, Outcome& out);

}  // namespace vatwright::blend::design
