// Where a worksheet goes: standard output, or a file that is never half written.
#pragma once

#include "host/sheet/writers.hpp"

#include <sys/types.h>

#include <cstddef>
#include <filesystem>
#include <string>
#include <vector>

namespace vatwright {

// Colour only on a terminal, and never against NO_COLOR (no-color.org). No wider than the terminal, or than COLUMNS
// says that it is.
TextStyle terminal_style();

// `out` onto a file that the run reads, by this name or another: the same file on the same disk. Throws BadInput.
void refuse_onto(const std::string& out, const std::vector<std::filesystem::path>& read);

// Output in parts: to a file without a name, which is given `file`'s on `finish`; to standard output
// when `file` is empty; straight to a device or a pipe. What is not finished leaves nothing behind,
// even when the program is killed, and a file that is there keeps its permissions; only on a file system that knows no
// files without a name (NFS) does a kill leave a temporary file `file.XXXXXX`.
class Output {
 public:
  // Each throws BadInput when it cannot be written.
  explicit Output(std::string file);
  Output(const Output&) = delete;
  Output& operator=(const Output&) = delete;
  ~Output();
  void write(const std::string& text);
  void finish();

 private:
  enum class Into : unsigned char { standard_output, device, unnamed, temporary };
  [[noreturn]] void fail(int error) const;
  void give_name();
  std::string file_, temporary_;  // `temporary_`: a name to move over `file_`, or to remove
  Into into_ = Into::standard_output;
  int descriptor_;
  mode_t mode_ = 0;  // of the file that is there already; 0: there is none
};

// How far a long run is, on a terminal; nothing elsewhere.
class ProgressBar {
 public:
  ProgressBar();
  void show(double share, std::size_t lots) const;
  void end() const;

 private:
  bool on_terminal_;
};

// All at once, as Output does.
// Throws BadInput when it cannot be written.
void put(const std::string& text, const std::string& file);

}  // namespace vatwright
