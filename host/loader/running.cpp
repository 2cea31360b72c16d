#include "host/loader/running.hpp"

#include "host/plugin/toolchain.hpp"

#include <unistd.h>

#include <array>
#include <csignal>
#include <cstdlib>

namespace vatwright {
namespace {

thread_local std::string_view running;
int status_of_break = EXIT_FAILURE;

// Nothing but write() is safe in a handler.
void say(std::string_view words) {
  while (!words.empty()) {
    const auto n = ::write(STDERR_FILENO, words.data(), words.size());
    if (n <= 0) return;
    words.remove_prefix(static_cast<std::size_t>(n));
  }
}

[[noreturn]] void break_off(std::string_view how) {
  say("vatwright: ");
  say(running.empty() ? "the program" : running);
  say(how);
  say("; nothing was written, and a sheet of earlier is not of this run. Tell whoever made ");
  say(running.empty() ? "vatwright" : "the plugin");
  say("\n");
  ::_exit(status_of_break);
}

void on_crash(int) { break_off(" crashed"); }

void at_exit() {
  if (!running.empty()) break_off(" ended the program in the middle of its work");
}

}  // namespace

Running::Running(std::string_view what) : before_(running) { running = what; }
Running::~Running() { running = before_; }

void name_what_breaks_off(int status) {
  status_of_break = status;
  std::atexit(at_exit);
  std::at_quick_exit(at_exit);
  if constexpr (sanitized) return;
  // A stack that ran over has no room left for the handler.
  static std::array<char, 1U << 16U> stack;
  stack_t other{};
  other.ss_sp = stack.data();
  other.ss_size = stack.size();
  ::sigaltstack(&other, nullptr);
  struct sigaction action {};
  action.sa_handler = on_crash;
  action.sa_flags = static_cast<int>(SA_ONSTACK | SA_RESETHAND);
  for (const int signal : {SIGSEGV, SIGBUS, SIGFPE, SIGILL, SIGABRT}) ::sigaction(signal, &action, nullptr);
}

}  // namespace vatwright
