#include "units/error.hpp"

#include <utility>

namespace vatwright {

InputError::InputError(const std::string& what, std::string hint, std::size_t offset)
    : std::runtime_error(what), hint_(std::move(hint)), offset_(offset) {}

InputError::~InputError() = default;

}  // namespace vatwright
