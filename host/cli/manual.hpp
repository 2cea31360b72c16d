// The manual page, from what commands, plugins and calculations say of themselves.
#pragma once

#include "host/cli/house.hpp"

#include <CLI/CLI.hpp>

#include <string>

namespace vatwright {

// Text for man(1), in the macros of groff_man(7).
std::string manual_page(const CLI::App& app, House& house);

}  // namespace vatwright
