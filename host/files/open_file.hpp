// A file that stays open, of which parts are read: another one that is put in its place changes nothing.
#pragma once

#include <cstddef>
#include <filesystem>
#include <span>
#include <string>

namespace vatwright {

class OpenFile {
 public:
  // One that cannot be read has no bytes.
  explicit OpenFile(const std::filesystem::path& file);
  ~OpenFile();
  OpenFile(const OpenFile&) = delete;
  OpenFile& operator=(const OpenFile&) = delete;

  explicit operator bool() const { return handle_ >= 0; }
  std::size_t size() const;
  // Its bytes from there on; fewer than are asked for where it ends before, or cannot be read. Any thread may ask.
  std::string part(std::size_t begin, std::size_t length) const;
  std::size_t read(std::size_t begin, std::span<char> into) const;

 private:
  int handle_;
};

}  // namespace vatwright
