// What a person can mend: thrown for any input that cannot be used as it stands.
#pragma once

#include <cstddef>
#include <stdexcept>
#include <string>

namespace vatwright {

// The destructor is defined in the shared units library, so that an error thrown inside a
// plugin is caught by its type in the host.
class InputError : public std::runtime_error {
 public:
  // `what`: what was read and what was expected; `hint`: how to mend it, which no error leaves out;
  // `offset`: where in the text that was read the trouble begins, in bytes.
  explicit InputError(const std::string& what, std::string hint, std::size_t offset = 0);
  InputError(const InputError&) = default;
  InputError& operator=(const InputError&) = default;
  ~InputError() override;

  const std::string& hint() const { return hint_; }
  std::size_t offset() const { return offset_; }

 private:
  std::string hint_;
  std::size_t offset_;
};

}  // namespace vatwright
