// What facts become when lots are joined.
#pragma once

#include "host/plugin/outcome.hpp"

#include <optional>
#include <span>
#include <string>

namespace vatwright::facts {

// A lot that goes in.
struct Part {
  const Row* lot;
  double share;       // by the volumes before they are joined; all shares make 1
  Density density{};  // for what joins by mass
};

// Of the whole: a value; or why there is none, "not known of T8"; or neither, where no lot has it.
struct Joined {
  std::optional<Value> value{};
  std::string unknown{};
};

// `shrunk_to`: what the sum of the volumes is to the volume of the whole. A fact that joins by a balance is for the
// calculation that joins.
Joined join(const Input& fact, std::span<const Part> parts, double shrunk_to);

// "T7, T8": those that do not have it.
std::string lacking(const Input& fact, std::span<const Part> parts);

// One entry a name, largest first, as a label lists them.
Shares each_once(const Shares& shares);

}  // namespace vatwright::facts
