// Text that is kept until what comes before it is known, in a file without a name: memory does not grow with it.
#pragma once

#include <cstdio>
#include <functional>
#include <memory>
#include <string>

namespace vatwright {

class HeldBack {
 public:
  // Each throws BadInput when there is no room for it.
  HeldBack();
  void add(const std::string& text);
  void give(const std::function<void(const std::string&)>& write);

 private:
  struct Close {
    void operator()(std::FILE* file) const { std::fclose(file); }
  };
  [[noreturn]] static void fail();

  std::unique_ptr<std::FILE, Close> file_;
};

}  // namespace vatwright
