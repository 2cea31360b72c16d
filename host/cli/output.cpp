#include "host/cli/output.hpp"

#include "host/yaml/document.hpp"

#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <cstdlib>
#include <cstring>

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

void put(const std::string& text, const std::string& file) {
  if (file.empty()) {
    if (!write_all(STDOUT_FILENO, text))
      throw BadInput("standard output cannot be written: " + std::string(std::strerror(errno)));
    return;
  }
  std::string temporary = file + ".XXXXXX";
  const int descriptor = ::mkstemp(temporary.data());
  if (descriptor < 0) throw BadInput(file + ": cannot be written: " + std::strerror(errno));
  constexpr mode_t readable = 0644;
  const bool written = write_all(descriptor, text) && ::fchmod(descriptor, readable) == 0 && ::fsync(descriptor) == 0;
  const bool closed = ::close(descriptor) == 0;
  if (!written || !closed || std::rename(temporary.c_str(), file.c_str()) != 0) {
    const std::string why = std::strerror(errno);
    ::unlink(temporary.c_str());
    throw BadInput(file + ": cannot be written: " + why);
  }
}

}  // namespace vatwright
