// The host believes no plugin: what it gives back is checked before it goes on a worksheet.
#pragma once

#include "host/plugin/description.hpp"
#include "host/plugin/outcome.hpp"

#include <optional>
#include <string>

namespace vatwright {

// Throws PluginError: a figure that is not finite, or in a unit that is not of its dimension; a result or a
// change that was not declared, or a value that no lot has; two results, checks or opinions of one name; a
// check that is said to hold where its own figures do not, or the other way round; an addition that is not
// above zero, more than the lot can take, or not the dose that it is said to be in `volume`, that of the
// lot before the step where it is known; a name that cannot be printed. A lot value out of its range is no
// fault of the plugin: see `enter`.
void vet(const Outcome& outcome, const Calculation& calculation, const std::string& id, std::optional<Volume> volume);

}  // namespace vatwright
