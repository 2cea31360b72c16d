// What a calculation gives back. The host vets it: finite figures, declared names, substances of
// the catalogue, no negative addition.
#pragma once

#include "host/plugin/inputs.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace vatwright {

// A named figure, in the unit in which it is shown.
struct Figure {
  std::string_view unit{};
  int decimals = 1;
  double number = 0;  // coherent
};

struct ResultValue {
  const ResultInfo* info;
  double number;  // coherent
};

struct Changed {
  const Input* key;  // a lot key
  double number;     // coherent
};

// What to weigh or measure out for the whole lot. Cautions and handling come from the catalogue.
struct Addition {
  std::string substance;       // id in the catalogue
  std::string strength{};      // of a solution, as it must stand on the label: "60 g/L SO2"
  std::optional<Mass> mass{};  // one of the two
  std::optional<Volume> volume{};
  Figure dose{};  // per volume of the lot
};

struct Check {
  std::string name;
  bool holds = false;
  std::optional<Figure> value{}, limit{};
  std::string_view relation{};  // "at most", "at least", "equals"
  std::string source;
  std::string remedy;  // what to do when it does not hold
};

// The trade's rule of thumb, or another published model, beside the answer.
struct SecondOpinion {
  std::string name;
  Figure here{}, there{};  // this sheet's figure, and the other one
  bool matters = false;    // the difference would change what is done
  std::string source;
};

struct Outcome {
  std::vector<ResultValue> results;
  std::vector<Changed> changes;
  std::vector<Addition> additions;
  std::vector<Check> checks;
  std::vector<SecondOpinion> opinions;
  std::vector<std::string> reagents;  // of those that the calculation declares, the ones handled this time
  std::vector<std::string> notes;

  template <class Quantity>
  void result(const Result<Quantity>& key, Quantity value) {
    results.push_back({&key, value.value()});
  }
  template <class Quantity>
  void change(const Key<Quantity>& lot_key, Quantity value) {
    changes.push_back({&lot_key, value.value()});
  }
  void note(std::string text) { notes.push_back(std::move(text)); }

  // Holds `value` against a rule set's figure; `remedy` is read when it does not hold.
  template <class Quantity>
  void hold(const Limit<Quantity>& limit, const Bound<Quantity>& bound, Quantity value, int decimals,
            std::string remedy) {
    const bool most = bound.row.sense == Sense::at_most;
    const bool holds = most ? value <= bound.value : value >= bound.value;
    std::string name(limit.name);
    name += " limit, " + bound.row.rules + (bound.row.condition.empty() ? "" : " (" + bound.row.condition + ")");
    checks.push_back({.name = std::move(name),
                      .holds = holds,
                      .value = Figure{limit.unit, decimals, value.value()},
                      .limit = Figure{limit.unit, decimals, bound.value.value()},
                      .relation = most ? "at most" : "at least",
                      .source = bound.row.source,
                      .remedy = holds ? std::string() : std::move(remedy)});
  }
};

template <class Quantity>
Figure figure(Quantity value, std::string_view unit, int decimals) {
  return {unit, decimals, value.value()};
}

}  // namespace vatwright
