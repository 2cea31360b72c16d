// Substances that must not meet undiluted (apart.yaml).
#pragma once

#include "host/substances/catalogue.hpp"
#include "host/yaml/sections.hpp"

#include <filesystem>
#include <string>
#include <vector>

namespace vatwright {

struct ApartPair {
  const Substance *one, *other;
  std::string because, source;
};

class Apart {
 public:
  // Throws BadInput when the table cannot be read or is not in order.
  explicit Apart(const std::filesystem::path& table);

  // Every pair of them that must not meet, in the order of the table.
  std::vector<ApartPair> among(const std::vector<const Substance*>& substances) const;

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
