// Typical uncertainties of readings that carry none (typical.yaml), for 'uncertainty: typical'.
#pragma once

#include "host/files/hash.hpp"
#include "host/plugin/readings.hpp"

#include <filesystem>
#include <map>
#include <string>

namespace vatwright {

class Typical {
 public:
  // Throws BadInput when the table cannot be read or is not in order: a row that is of nothing that
  // a lot has, or not above zero.
  explicit Typical(const std::filesystem::path& table);

  // Gives the reading its typical uncertainty, if it has none and one is known.
  void tell(const Input& key, Value& value) const;

  Sum sum() const { return sum_; }

 private:
  struct Row {
    double standard = 0;  // coherent
    double share = 0;     // of the reading
  };
  std::map<std::string, Row, std::less<>> rows_;
  Sum sum_;
};

}  // namespace vatwright
