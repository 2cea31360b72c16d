// Which plugin's code runs at the moment, so that a crash in it, or an exit(), does not pass in silence.
#pragma once

#include <string_view>

namespace vatwright {

// For its lifetime a plugin's code runs on this thread. The words must outlive it.
class Running {
 public:
  // `what` is at work: "sulfite.addition", or the file that is opened.
  explicit Running(std::string_view what);
  ~Running();
  Running(const Running&) = delete;
  Running& operator=(const Running&) = delete;

 private:
  std::string_view before_;
};

// From now on a crash, or an exit() of a plugin, names what was running on standard error, and ends the process with
// `status`. Under a sanitizer crashes are left to it.
void name_what_breaks_off(int status);

}  // namespace vatwright
