#include "host/cli/output.hpp"

#include "host/yaml/document.hpp"

#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <utility>

namespace vatwright {
namespace {

bool write_all(int descriptor, const std::string& text) {
  for (std::size_t at = 0; at < text.size();) {
    const auto n = ::write(descriptor, text.data() + at, text.size() - at);
    if (n < 0 && errno == EINTR) continue;
    if (n <= 0) return false;
    at += static_cast<std::size_t>(n);
  }
  return true;
}

}  // namespace

TextStyle terminal_style() {
  const char* no_colour = std::getenv("NO_COLOR");
  TextStyle style;
  style.colour = ::isatty(STDOUT_FILENO) != 0 && (no_colour == nullptr || *no_colour == '\0');
  return style;
}

Output::Output(std::string file) : file_(std::move(file)), descriptor_(STDOUT_FILENO) {
  if (file_.empty()) return;
  temporary_ = file_ + ".XXXXXX";
  descriptor_ = ::mkstemp(temporary_.data());
  if (descriptor_ >= 0) return;
  temporary_.clear();
  fail();
}

Output::~Output() {
  if (temporary_.empty()) return;
  if (descriptor_ >= 0) ::close(descriptor_);
  ::unlink(temporary_.c_str());
}

void Output::write(const std::string& text) {
  if (!write_all(descriptor_, text)) fail();
}

void Output::finish() {
  if (file_.empty()) return;
  constexpr mode_t readable = 0644;
  if (::fchmod(descriptor_, readable) != 0 || ::fsync(descriptor_) != 0) fail();
  const int descriptor = std::exchange(descriptor_, -1);
  if (::close(descriptor) != 0 || std::rename(temporary_.c_str(), file_.c_str()) != 0) fail();
  temporary_.clear();
}

void Output::fail() {
  throw BadInput((file_.empty() ? "standard output" : file_ + ":") + " cannot be written: " + std::strerror(errno));
}

ProgressBar::ProgressBar() : on_terminal_(::isatty(STDERR_FILENO) != 0) {}

void ProgressBar::show(double share, std::size_t lots) const {
  if (!on_terminal_) return;
  constexpr int width = 40;
  const int full = static_cast<int>(share * width);
  std::string bar(static_cast<std::size_t>(full), '=');
  bar.resize(width, ' ');
  std::fprintf(stderr, "\r[%s] %3.0f %%  %zu lots", bar.c_str(), 100 * share, lots);
}

void ProgressBar::end() const {
  if (on_terminal_) std::fputs("\n", stderr);
}

void put(const std::string& text, const std::string& file) {
  Output output(file);
  output.write(text);
  output.finish();
}

}  // namespace vatwright
