// The page on this machine's own address, for one person's browser.
#pragma once

#include "host/page/answer.hpp"

#include <cstddef>
#include <functional>
#include <string>

namespace vatwright {

// What a request may cost. Numbers are ours (common practice, no source).
struct ServerLimits {
  std::size_t head_bytes = 1U << 20U;  // a recipe travels in the address
  std::size_t body_bytes = 1U << 20U;  // as much as a recipe may be
  std::size_t connections = 64;
  int seconds = 10;  // for a request to come in whole, and for its answer to be taken
};

// Serves 127.0.0.1 until it is interrupted or terminated. `port` 0: any that is free; `ready` is told the address to
// open, with the token of this run. Throws BadInput when the port cannot be had.
void serve_page(const Premises& on, unsigned short port, const std::function<void(const std::string&)>& ready,
                const ServerLimits& limits = {});

}  // namespace vatwright
