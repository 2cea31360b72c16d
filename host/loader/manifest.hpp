// What a plugin says of itself, looked at before anything of it is used, however it came in.
#pragma once

#include "host/plugin/description.hpp"

#include <string>

namespace vatwright {

// Throws PluginError: no manifest of ours, another interface version or toolchain, or a description that lacks what
// the host needs. `where` names the plugin in messages.
void check_manifest(const std::string& where, const Manifest& manifest);

// What is wrong with a manifest's descriptions; empty when they are in order.
std::string fault_in(const Manifest& manifest);

}  // namespace vatwright
