// The host believes no plugin: what it gives back is checked before it goes on a worksheet.
#pragma once

#include "host/plugin/description.hpp"
#include "host/plugin/outcome.hpp"

#include <string>

namespace vatwright {

// Throws PluginError: a figure that is not finite, a result or a change that was not declared, a
// word that no lot has, a negative addition, or one with neither mass nor volume. A lot value out
// of its range is no fault of the plugin: see `enter`.
void vet(const Outcome& outcome, const Calculation& calculation, const std::string& id);

}  // namespace vatwright
