// Values as the host hands them over, and the typed way to read them by their keys.
#pragma once

#include "host/plugin/keys.hpp"
#include "units/dimensions.hpp"

#include <chrono>
#include <map>
#include <memory>
#include <optional>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

namespace vatwright {

// What the catalogue of substances says of the one that was chosen (host/substances).
// What a substance counts as on the label of the wine: nothing is named of a processing aid but its allergen.
struct OnLabel {
  std::string is;        // additive, processing aid, ingredient
  std::string group;     // "acidity regulator"; empty where it has none
  std::string number;    // "E 334"; empty where it goes by its name
  std::string allergen;  // sulfites, egg, milk; empty
};

struct SubstanceFacts {
  std::string id;
  std::string formula;
  MolarMass molar_mass{};
  double active_share = 1;  // mass of what acts in one mass of the substance; 0: see its strength
  std::vector<std::pair<std::string, double>> brings;  // lot key -> mass per mass of the substance
  std::string form{};                                  // solid, liquid, solution, gas
  OnLabel label{};

  double brought(std::string_view what) const {
    for (const auto& [key, share] : brings)
      if (key == what) return share;
    return 0;
  }
};

// A share of the whole by name: {Sorrel: 60 %, Blackthorn: 40 %}.
using Shares = std::vector<std::pair<std::string, double>>;

// Coherent amounts by name: {PVPP: 60 g/hL}.
using Amounts = std::vector<std::pair<std::string, double>>;

// So much more of one name.
inline void add_to(Amounts& all, std::string_view name, double more) {
  for (auto& [there, number] : all)
    if (there == name) {
      number += more;
      return;
    }
  all.emplace_back(name, more);
}

struct Series {
  std::vector<std::pair<double, double>> points;  // coherent, by rising x
  std::optional<double> path;                     // optical path of an absorbance, m
  std::vector<double> uncertainties;              // coherent, standard, one a point; empty when none was given
};

// What a key is held to: at least `low`, at most `high`; one figure alone is both.
struct KeyBounds {
  const Input* on = nullptr;
  std::optional<double> low, high;  // coherent
};

class Row;
struct KeyedValue;

struct Value {
  double number = 0;       // coherent; of a date: days since 1970-01-01
  double uncertainty = 0;  // coherent, standard; 0 when none was given
  bool typical = false;    // nobody gave it: it is what the method's reproducibility makes of the figure
  std::string written;     // the quantity as the person wrote it; empty when it was computed
  std::string word;        // of a choice, a substance or a name
  Shares shares;
  Amounts amounts;
  Series series;
  SubstanceFacts substance;
  std::vector<KeyBounds> bounds;
  std::vector<Row> rows;  // of lots and of rows, in the order in which they were written
  // Of an account: the lots that went into it and say nothing of it. They count as none, and it is not a stated one.
  std::vector<std::string> silent;
};

// Lot values by the name of their key.
using Analysis = std::map<std::string, Value, std::less<>>;

// Whatever has values by key: the inputs of a step, a lot in a blend, a row of a table.
class Readings {
 public:
  // nullptr when it was not given and has no default.
  virtual const Value* find(const Input& input) const = 0;

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
  // Of a name that is not there: none.
  template <class Quantity>
  Quantity amount(const AmountsKey<Quantity>& key, std::string_view name) const {
    if (const Value* v = find(key))
      for (const auto& [there, number] : v->amounts)
        if (there == name) return Quantity::from_value(number);
    return Quantity{};
  }
  template <class Quantity>
  const Amounts& operator[](const AmountsKey<Quantity>& key) const {
    return at(key).amounts;
  }
  template <class X, class Y>
  const Series& operator[](const SeriesKey<X, Y>& key) const {
    return at(key).series;
  }
  std::string_view operator[](const NameKey& key) const { return at(key).word; }
  std::string_view operator[](const NewLotKey& key) const { return at(key).word; }
  std::chrono::sys_days operator[](const DateKey& key) const {
    return std::chrono::sys_days(std::chrono::days(static_cast<int>(at(key).number)));
  }
  const std::vector<KeyBounds>& operator[](const BoundsKey& key) const { return at(key).bounds; }
  const std::vector<Row>& operator[](const LotsKey& key) const { return at(key).rows; }
  const std::vector<Row>& operator[](const RowsKey& key) const { return at(key).rows; }

 protected:
  Readings() = default;
  Readings(const Readings&) = default;
  Readings& operator=(const Readings&) = default;
  ~Readings() = default;

 private:
  // A calculation that reads what it neither declared nor checked for is at fault, not the user.
  const Value& at(const Input& input) const {
    if (const Value* v = find(input)) return *v;
    throw std::logic_error("reads '" + std::string(input.name) + "', which was not given");
  }
};

// One lot of several, or one line of a table. What the step says of it comes first; then, of a
// lot, its analysis at that point of the recipe.
class Row final : public Readings {
 public:
  std::string name;  // of the lot; empty in a table
  std::vector<KeyedValue> own;
  std::shared_ptr<const Analysis> lot;

  inline const Value* find(const Input& input) const override;
};

// A value and the key that it is of.
struct KeyedValue {
  const Input* key;
  Value value;
};

const Value* Row::find(const Input& input) const {
  for (const auto& [key, value] : own)
    if (key == &input) return &value;
  if (lot == nullptr) return nullptr;
  const auto at = lot->find(input.name);
  return at == lot->end() ? nullptr : &at->second;
}

}  // namespace vatwright
