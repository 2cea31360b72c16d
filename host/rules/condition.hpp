// When a row of a rule set applies: {stage: wine, colour: [white, pink], sugar: below 5 g/L}.
#pragma once

#include "host/plugin/inputs.hpp"
#include "host/yaml/document.hpp"

#include <functional>
#include <string>
#include <string_view>
#include <vector>

namespace vatwright {

// What is known of the lot by its key; nullptr when nothing is.
using LotView = std::function<const Value*(std::string_view key)>;

// A key that the lot does not state leaves it open whether a row applies.
enum class Applies : unsigned char { no, open, yes };

// Read once, so that it can be asked of many lots.
class Condition {
 public:
  // `when` may be nullptr: then it always applies. Throws BadInput for a condition that is not in order.
  Condition(const Document& doc, const Node* when);

  Applies applies(const LotView& lot) const;
  // "pink, sugar below 5 g/L", as the row words it for this lot.
  std::string words(const LotView& lot) const;

 private:
  struct Clause {
    const Input* key;
    std::string figure{};               // as written, with its key: "below 5 g/L"
    bool (*compare)(double, double){};  // of a quantity
    double bound = 0;
    std::vector<std::string> any_of{};  // of a choice

    bool holds(const Value& value) const;
  };
  static Clause read(const Document& doc, const Entry& entry);

  std::vector<Clause> clauses_;
};

}  // namespace vatwright
