#include "host/cli/output.hpp"

#include "host/yaml/document.hpp"

#include <fcntl.h>
#include <sys/ioctl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <charconv>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <filesystem>
#include <optional>
#include <system_error>
#include <utility>

namespace vatwright {
namespace {

namespace fs = std::filesystem;

constexpr mode_t readable = 0644;

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

namespace {

// What the person says, else what the terminal says; nothing when neither does.
std::optional<std::size_t> terminal_columns() {
  std::size_t columns = 0;
  if (const char* said = std::getenv("COLUMNS"); said != nullptr) {
    const char* end = said + std::strlen(said);
    if (const auto read = std::from_chars(said, end, columns); read.ec == std::errc() && read.ptr == end && columns > 0)
      return columns;
  }
  winsize size{};
  if (::ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) != 0 || size.ws_col == 0) return std::nullopt;
  return size.ws_col;
}

}  // namespace

TextStyle terminal_style() {
  TextStyle style;
  if (::isatty(STDOUT_FILENO) == 0) return style;
  const char* no_colour = std::getenv("NO_COLOR");
  style.colour = no_colour == nullptr || *no_colour == '\0';
  constexpr std::size_t least = 40;  // a narrower page is not read but guessed
  if (const auto columns = terminal_columns()) style.width = std::clamp(*columns, least, style.width);
  return style;
}

void refuse_onto(const std::string& out, const std::vector<std::filesystem::path>& read) {
  struct stat target {
  }, one{};
  if (out.empty() || ::stat(out.c_str(), &target) != 0) return;
  for (const auto& file : read)
    if (::stat(file.c_str(), &one) == 0 && one.st_dev == target.st_dev && one.st_ino == target.st_ino)
      throw BadInput(out + ": the sheet would be written over " + file.string() +
                     ", which this run reads; nothing was computed\n  name another file after --out");
}

Output::Output(std::string file) : file_(std::move(file)), descriptor_(STDOUT_FILENO) {
  if (file_.empty()) return;
  std::error_code ec;
  const auto kind = fs::status(file_, ec).type();
  if (kind == fs::file_type::directory) fail(EISDIR);
  if (kind != fs::file_type::regular && kind != fs::file_type::not_found) {
    into_ = Into::device;
    descriptor_ = ::open(file_.c_str(), O_WRONLY | O_CLOEXEC);
  } else {
    // Through a symbolic link, as every other program writes.
    if (kind == fs::file_type::regular) {
      file_ = fs::canonical(file_, ec).string();
      struct stat there {};
      if (::stat(file_.c_str(), &there) == 0) mode_ = there.st_mode & 07777;
    }
    const auto folder = fs::path(file_).parent_path();
    into_ = Into::unnamed;
    descriptor_ = ::open(folder.empty() ? "." : folder.c_str(), O_TMPFILE | O_WRONLY | O_CLOEXEC, readable);
    if (descriptor_ < 0) {  // not every file system knows files without a name
      into_ = Into::temporary;
      temporary_ = file_ + ".XXXXXX";
      descriptor_ = ::mkstemp(temporary_.data());
    }
  }
  if (descriptor_ >= 0) return;
  temporary_.clear();
  fail(errno);
}

Output::~Output() {
  if (!file_.empty() && descriptor_ >= 0) ::close(descriptor_);
  if (!temporary_.empty()) ::unlink(temporary_.c_str());
}

void Output::write(const std::string& text) {
  if (!write_all(descriptor_, text)) fail(errno);
}

void Output::finish() {
  if (file_.empty()) return;
  if (into_ != Into::device && ::fsync(descriptor_) != 0) fail(errno);
  const bool sets_mode = mode_ != 0 || into_ == Into::temporary;
  if (into_ != Into::device && sets_mode && ::fchmod(descriptor_, mode_ != 0 ? mode_ : readable) != 0) fail(errno);
  if (into_ == Into::unnamed) give_name();
  const int descriptor = std::exchange(descriptor_, -1);
  if (::close(descriptor) != 0) fail(errno);
  if (!temporary_.empty() && std::rename(temporary_.c_str(), file_.c_str()) != 0) fail(errno);
  temporary_.clear();
}

// A link takes no other file's place: where there is one, a second name is moved over it.
void Output::give_name() {
  const std::string open_file = "/proc/self/fd/" + std::to_string(descriptor_);
  const auto link = [&](const std::string& name) {
    return ::linkat(AT_FDCWD, open_file.c_str(), AT_FDCWD, name.c_str(), AT_SYMLINK_FOLLOW) == 0;
  };
  if (link(file_)) return;
  if (errno != EEXIST) fail(errno);
  std::string beside;
  constexpr int most = 100;
  for (int n = 0; !link(beside = file_ + "." + std::to_string(n)); ++n)
    if (errno != EEXIST || n == most) fail(errno);
  temporary_ = beside;
}

void Output::fail(int error) const {
  throw BadInput((file_.empty() ? "standard output" : file_ + ":") + " cannot be written: " + std::strerror(error) +
                 (file_.empty() ? "" : "\n  look at the name after --out and at its folder, or name another"));
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
