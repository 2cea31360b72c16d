#include "host/files/open_file.hpp"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

namespace vatwright {

OpenFile::OpenFile(const std::filesystem::path& file) : handle_(::open(file.c_str(), O_RDONLY | O_CLOEXEC)) {}

OpenFile::~OpenFile() {
  if (handle_ >= 0) ::close(handle_);
}

std::size_t OpenFile::size() const {
  struct stat facts {};
  return ::fstat(handle_, &facts) == 0 ? static_cast<std::size_t>(facts.st_size) : 0;
}

std::size_t OpenFile::read(std::size_t begin, std::span<char> into) const {
  std::size_t had = 0;
  while (had < into.size()) {
    const auto more = ::pread(handle_, into.data() + had, into.size() - had, static_cast<off_t>(begin + had));
    if (more <= 0) break;
    had += static_cast<std::size_t>(more);
  }
  return had;
}

std::string OpenFile::part(std::size_t begin, std::size_t length) const {
  std::string out(length, '\0');
  out.resize(read(begin, out));
  return out;
}

}  // namespace vatwright
