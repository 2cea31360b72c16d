// The commands of the program, with their arguments and options: help, the manual page and completion are made of them.
#pragma once

#include "host/cli/options.hpp"

namespace vatwright {

// Reads what was typed into `options` and does it; the exit status. Throws as the commands do.
int answer(int count, char** words, Options& options);

}  // namespace vatwright
