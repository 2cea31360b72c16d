#include "host/cli/ticker.hpp"

#include <unistd.h>

#include <chrono>
#include <condition_variable>
#include <cstdio>
#include <mutex>
#include <stop_token>

namespace vatwright {
namespace {

void tick(const std::stop_token& stop) {
  std::mutex mutex;
  std::condition_variable_any ended;
  std::unique_lock lock(mutex);
  const auto stopped = [&] { return stop.stop_requested(); };
  int seconds = 0;
  while (!ended.wait_for(lock, stop, std::chrono::seconds(1), stopped))
    std::fprintf(stderr, "\rcomputing for %d s ", ++seconds);
  if (seconds > 0) std::fputs("\r                      \r", stderr);
}

}  // namespace

Ticker::Ticker() {
  if (::isatty(STDERR_FILENO) != 0) thread_ = std::jthread(tick);
}

}  // namespace vatwright
