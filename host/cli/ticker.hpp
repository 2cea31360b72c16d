// Tells on a terminal that a sheet is still being computed, and for how long it has been; nothing elsewhere.
#pragma once

#include <thread>

namespace vatwright {

class Ticker {
 public:
  Ticker();

 private:
  std::jthread thread_;  // none where there is no terminal; ended and waited for with the ticker
};

}  // namespace vatwright
