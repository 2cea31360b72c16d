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
  // Throws BadInput when the table cannot be read or is not in order. `among`: only what may be of two of these is
  // read.
  explicit Apart(const std::filesystem::path& table);
  Apart(const std::filesystem::path& table, const std::vector<const Substance*>& among);

  // Every pair of them that must not meet, in the order of the table.
  std::vector<ApartPair> among(const std::vector<const Substance*>& substances) const;

  struct Rule {
    std::string name;
    std::vector<std::string> one, other;
    std::string because, source;
  };
  const std::vector<Rule>& rules() const { return rules_; }

 private:
  void read(const Sections& sections, std::string_view name);
  std::vector<Rule> rules_;
};

}  // namespace vatwright
