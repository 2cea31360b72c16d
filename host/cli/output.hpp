// Where a worksheet goes: standard output, or a file that is never half written.
#pragma once

#include "host/sheet/writers.hpp"

#include <string>

namespace vatwright {

// Colour only on a terminal, and never against NO_COLOR (no-color.org).
TextStyle terminal_style();

// To `file` by way of a temporary file beside it; to standard output when `file` is empty.
// Throws BadInput when it cannot be written.
void put(const std::string& text, const std::string& file);

}  // namespace vatwright
