// A command line that cannot be read, in words that name what was meant.
#pragma once

#include "host/cli/command_line.hpp"

namespace vatwright {

// Throws BadInput for a command or an option that there is not, a word too many and one too few; returns
// where CLI11's own words say enough, and for what is no error, such as --help.
void refuse_slips(const CLI::App& app, const CLI::ParseError& error);

}  // namespace vatwright
