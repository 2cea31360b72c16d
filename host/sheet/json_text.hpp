// JSON from outside: limits on depth, no member twice, and errors for a person.
#pragma once

#include <nlohmann/json.hpp>

#include <string>

namespace vatwright {

// Throws BadInput: not JSON, nested too deep, or a member that is there twice (a reader that keeps
// one of the two would not see the other).
nlohmann::json parse_json(const std::string& name, const std::string& text);

}  // namespace vatwright
