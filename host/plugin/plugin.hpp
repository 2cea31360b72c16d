// Everything that a plugin includes of the host: descriptions, typed keys, inputs, outcome, the
// lot's keys, and the macro that exports a plugin.
#pragma once

#include "host/plugin/inputs.hpp"
#include "host/plugin/interface.hpp"
#include "host/plugin/joined.hpp"
#include "host/plugin/lot.hpp"
#include "host/plugin/outcome.hpp"
#include "host/plugin/toolchain.hpp"
#include "units/constants.hpp"
#include "units/error.hpp"

#include <cstdint>

namespace vatwright {

inline constexpr std::uint32_t plugin_magic = 0x56415457;  // "VATW"

// A plugin must have been built with the headers of this program: see host/plugin/interface.cmake.
inline constexpr std::uint32_t plugin_interface = VATWRIGHT_INTERFACE;

inline constexpr char manifest_symbol[] = "vatwright_manifest";

}  // namespace vatwright

// VATWRIGHT_PLUGIN("sulfite", "0.1.0", "what it is for", calculations);
#define VATWRIGHT_PLUGIN(name, version, help, calculations)                                                 \
  extern "C" __attribute__((visibility("default"))) const vatwright::Manifest vatwright_manifest;           \
  constinit const vatwright::Manifest vatwright_manifest {                                                  \
    vatwright::plugin_magic, vatwright::plugin_interface, vatwright::plugin_toolchain, name, version, help, \
        calculations                                                                                        \
  }
