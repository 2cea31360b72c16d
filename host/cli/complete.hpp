// What a shell may offer at the end of a command line that is being typed. The command line itself
// and the plugins say what there is, so that a new option or calculation is offered at once.
#pragma once

#include <CLI/CLI.hpp>

#include <string>
#include <vector>

namespace vatwright {

// `words`: what is typed after the program's name; the last may be empty. One offer a line; one
// that ends in '=' wants a value, without a space. Where a file is meant, one line ":files SUFFIX"
// (any file without a suffix) or ":folders" leaves the search to the shell.
std::string completions(const CLI::App& app, const std::vector<std::string>& words);

}  // namespace vatwright
