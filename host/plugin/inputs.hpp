// What a calculation is given: parsed, unit-checked, ranged and defaulted by the host.
#pragma once

#include "host/plugin/keys.hpp"
#include "units/dimensions.hpp"

#include <optional>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

namespace vatwright {

// What the catalogue of substances says of the one that was chosen (host/substances).
struct SubstanceFacts {
  std::string id;
  std::string formula;
  MolarMass molar_mass{};
  double active_share = 1;  // mass of what acts in one mass of the substance; 0: see its strength
  std::vector<std::pair<std::string, double>> brings;  // lot key -> mass per mass of the substance

  double brought(std::string_view what) const {
    for (const auto& [key, share] : brings)
      if (key == what) return share;
    return 0;
  }
};

// A share of the whole by name: {Sorrel: 60 %, Blackthorn: 40 %}.
using Shares = std::vector<std::pair<std::string, double>>;

struct Series {
  std::vector<std::pair<double, double>> points;  // coherent
  std::optional<double> path;                     // optical path of an absorbance, m
};

struct Value {
  double number = 0;       // coherent
  double uncertainty = 0;  // coherent, standard; 0 when none was given
  std::string written;     // the quantity as the person wrote it; empty when it was computed
  std::string word;        // of a choice or a substance
  Shares shares;
  Series series;
  SubstanceFacts substance;
};

enum class Sense : std::uint8_t { at_most, at_least };

// The strictest figure that the recipe's rule sets give for this lot.
struct LimitRow {
  double number = 0;  // coherent
  Sense sense = Sense::at_most;
  std::string rules;      // "EU"
  std::string condition;  // "pink, sugar below 5 g/L"
  std::string source;     // article and date of the text
};

template <class Quantity>
struct Bound {
  Quantity value;
  LimitRow row;
};

class Inputs {
 public:
  // nullptr when it was not given and has no default.
  virtual const Value* find(const Input& input) const = 0;
  virtual std::optional<LimitRow> limit(const LimitInfo& limit) const = 0;

  bool has(const Input& input) const { return find(input) != nullptr; }

  template <class Quantity>
  Quantity operator[](const Key<Quantity>& key) const {
    return Quantity::from_value(at(key).number);
  }
  template <class Quantity>
  std::optional<Quantity> get(const Key<Quantity>& key) const {
    if (const Value* v = find(key)) return Quantity::from_value(v->number);
    return std::nullopt;
  }
  std::string_view operator[](const Choice& key) const { return at(key).word; }
  std::string_view get(const Choice& key) const { return has(key) ? at(key).word : std::string_view(); }
  const SubstanceFacts& operator[](const SubstanceChoice& key) const { return at(key).substance; }
  const Shares& operator[](const SharesKey& key) const { return at(key).shares; }
  template <class X, class Y>
  const Series& operator[](const SeriesKey<X, Y>& key) const {
    return at(key).series;
  }
  template <class Quantity>
  std::optional<Bound<Quantity>> operator[](const Limit<Quantity>& key) const {
    if (auto row = limit(key)) return Bound<Quantity>{Quantity::from_value(row->number), std::move(*row)};
    return std::nullopt;
  }

 protected:
  Inputs() = default;
  Inputs(const Inputs&) = default;
  Inputs& operator=(const Inputs&) = default;
  ~Inputs() = default;

 private:
  // A calculation that reads what it neither declared nor checked for is at fault, not the user.
  const Value& at(const Input& input) const {
    if (const Value* v = find(input)) return *v;
    throw std::logic_error("reads '" + std::string(input.name) + "', which was not given");
  }
};

}  // namespace vatwright
