// Where a worksheet goes: standard output, or a file that is never half written.
#pragma once

#include "host/sheet/writers.hpp"

#include <cstddef>
#include <string>

namespace vatwright {

// Colour only on a terminal, and never against NO_COLOR (no-color.org).
TextStyle terminal_style();

// Output in parts: to a temporary file beside `file`, which takes its name on `finish`; to standard
// output when `file` is empty. A file that is not finished leaves nothing behind.
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
  [[noreturn]] void fail();
  std::string file_, temporary_;
  int descriptor_;
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

// To `file` by way of a temporary file beside it; to standard output when `file` is empty.
// Throws BadInput when it cannot be written.
void put(const std::string& text, const std::string& file);

}  // namespace vatwright
