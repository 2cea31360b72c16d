// A design as it was asked, read and checked once.
#pragma once

#include "plugins/blend/design/keys.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace vatwright::blend::design {

struct Candidate {
  const Row* row;
  double least = 0, most = 1;  // share of the blend
  double price = 0;            // of one hL
  bool whole = false;          // `most` or nothing

  const std::string& name() const { return row->name; }
};

struct Problem {
  Volume volume;
  std::vector<Candidate> lots;
  std::vector<KeyBounds> bounds, profile;
  std::vector<CompositionRule> rules;
  std::optional<std::size_t> least_lots, most_lots;
  double smallest_share = 0;
  Length path{};  // of a colour
  bool for_cost = true;
  bool priced = true;  // every lot has a price
};

// Notes in `out` which rules could not be held. Throws InputError that names what is missing or cannot
// be together: a lot without a volume, a price or a figure that is bound; a count that is no whole
// number; an aim without its figures.
Problem read(const Inputs& in, Outcome& out);

// The shares of a lot that a composition rule looks at; nothing when the lot says nothing of them.
std::optional<Shares> said_of(const Row& lot, const std::string& of);

}  // namespace vatwright::blend::design
