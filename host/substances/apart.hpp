// Substances that must not meet undiluted (apart.yaml).
#pragma once

#include "host/yaml/sections.hpp"

#include <filesystem>
#include <string>
#include <vector>

namespace vatwright {

struct ApartPair {
  std::string one, other;  // ids in the catalogue
  std::string because, source;
};

class Apart {
 public:
  // Throws BadInput when the table cannot be read or is not in order.
  explicit Apart(const std::filesystem::path& table);

  // Every pair of `ids` that must not meet, in the order of the table.
  std::vector<ApartPair> among(const std::vector<std::string>& ids) const;

  struct Rule {
    std::string name;
    std::vector<std::string> one, other;
    std::string because, source;
  };
  const std::vector<Rule>& rules() const { return rules_; }

 private:
  std::vector<Rule> rules_;
};

}  // namespace vatwright
