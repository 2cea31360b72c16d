#include "host/batch/held_back.hpp"

#include "host/yaml/document.hpp"

#include <cerrno>
#include <cstring>

namespace vatwright {
namespace {

constexpr std::size_t copied_bytes = 1U << 16U;

}  // namespace

HeldBack::HeldBack() : file_(std::tmpfile()) {
  if (file_ == nullptr) fail();
}

void HeldBack::add(const std::string& text) {
  if (std::fwrite(text.data(), 1, text.size(), file_.get()) != text.size()) fail();
}

void HeldBack::give(const std::function<void(const std::string&)>& write) {
  if (std::fflush(file_.get()) != 0 || std::fseek(file_.get(), 0, SEEK_SET) != 0) fail();
  std::string block(copied_bytes, '\0');
  while (const auto got = std::fread(block.data(), 1, block.size(), file_.get())) write(block.substr(0, got));
  if (std::ferror(file_.get()) != 0) fail();
}

void HeldBack::fail() {
  throw BadInput(std::string("the rows cannot be kept in ") + P_tmpdir +
                 " until the last is done: " + std::strerror(errno) + "\n  make room there, or ask for '--format csv'");
}

}  // namespace vatwright
