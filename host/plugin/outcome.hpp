// What a calculation gives back. The host vets it: finite figures, declared names, substances of
// the catalogue, no negative addition.
#pragma once

#include "host/plugin/inputs.hpp"

#include <algorithm>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

namespace vatwright {

// A figure with what it is a figure of, and the unit in which it is shown: of another dimension it
// is refused. Made with figure(quantity, unit, decimals).
struct Figure {
  std::string_view unit{};
  int decimals = 1;
  double number = 0;  // coherent
  Dimension dimension{};
};

template <class Unit>
Figure figure(const bu::quantity<Unit>& quantity, std::string_view unit, int decimals) {
  return {unit, decimals, quantity.value(), dimension_of<bu::quantity<Unit>>()};
}

struct ResultValue {
  const ResultInfo* info;
  double number;  // coherent
  // What it is uncertain by whatever the ± of the readings: the scatter of repeats, the fit of a line. Coherent,
  // standard; the host joins it to what the readings do. With a name for what it comes from.
  double own_standard = 0;
  std::string_view own_name{};
};

struct Changed {
  const Input* key;  // a lot key
  Value value;
};

// So much more than the lot has of a fact, coherent, where that is known; of an account also where nothing is stated.
// What is poured in with it thins it too.
struct Raised {
  const Input* key;
  double by;
  std::string name{};  // of one of its amounts
};

// A lot that the step makes, such as a blend or the juice that was bled off.
struct NewLot {
  std::string name;
  Analysis analysis{};
  std::string_view by = "do";  // what is done to the wine for it: "join", "draw", "press"

  template <class Quantity>
  void set(const Key<Quantity>& lot_key, Quantity value) {
    at(lot_key).number = value.value();
  }
  void set(const Choice& lot_key, std::string_view word) { at(lot_key).word = word; }
  void set(const SharesKey& lot_key, Shares shares) { at(lot_key).shares = std::move(shares); }
  template <class Quantity>
  void set(const AmountsKey<Quantity>& lot_key, Amounts amounts) {
    at(lot_key).amounts = std::move(amounts);
  }
  template <class X, class Y>
  void set(const SeriesKey<X, Y>& lot_key, Series series) {
    at(lot_key).series = std::move(series);
  }

 private:
  Value& at(const Input& key) { return analysis[std::string(key.name)]; }
};

// Wine that the step takes out of a lot of the recipe.
struct Drawn {
  std::string lot;
  Volume volume;
};

// Something that holds none of what the lot does, such as sugar, spirit or water, was poured into the whole of it. The
// host thins what is known of the lot by it, each fact as it behaves, but for what the step itself changes or forgets.
struct Poured {
  Volume before, after;
  std::optional<Mass> mass{};  // of what went in; without it density and soluble solids become unknown

  Fraction thinner() const { return before / after; }
};

// What to weigh or measure out for the whole lot. Cautions and handling come from the catalogue.
struct Addition {
  std::string substance;       // id in the catalogue
  std::string strength{};      // of a solution, as it must stand on the label: "60 g/L SO2"
  std::optional<Mass> mass{};  // one of the two
  std::optional<Volume> volume{};
  Figure dose{};  // per volume of the lot
  // Of several that are not given at once: "portion 1 of 2, when the density has fallen by 10 kg/m³".
  std::string when{};
  // So much is taken out of the lot, and it goes into that alone.
  std::optional<Volume> part{};
};

// The source of a check that holds what the lot has against the step's own target. Where it holds nothing is needed,
// whatever other check fails.
inline constexpr std::string_view as_asked_for = "as asked for";

struct Check {
  std::string name;
  bool holds = false;
  std::optional<Figure> value{}, limit{};
  std::string_view relation{};  // "at most", "at least", "below", "equals"
  std::string source;
  std::string remedy;  // what to do when it does not hold
  // Whoever has to allow it first. Then the check neither holds nor fails; `holds` is true, so that it stands in
  // nobody's way, and sheets say that an authorisation is needed.
  std::string authorised_by{};
  const LimitInfo* on{};  // the figure of the rule sets that it is of; none: of something else

  bool finds_enough() const { return holds && source == as_asked_for; }
};

// Readings that cannot all be right, and the check that fails of them.
struct Disagreement {
  std::vector<const Input*> between;
  Check check;
};

// The trade's rule of thumb, or another published model, beside the answer.
struct SecondOpinion {
  std::string name;
  Figure here{}, there{};  // this sheet's figure, and the other one
  bool matters = false;    // the difference would change what is done
  std::string source;
};

// A small table: a column without unit holds words.
struct Column {
  std::string name;
  std::string_view unit{};
  int decimals = 1;
};
using Cell = std::variant<std::monostate, double, std::string>;  // nothing, a coherent number, words
struct Table {
  std::string name;
  std::vector<Column> columns;
  std::vector<std::vector<Cell>> rows;
};

// A course that people would rather look at; numbers are coherent.
struct Axis {
  std::string name;
  std::string_view unit{};
  int decimals = 1;
};
struct Trace {
  std::string name;
  bool dots = false;  // readings or the lot itself, not a line
  std::vector<std::pair<double, double>> points;
};
struct Chart {
  std::string name;
  Axis x, y;
  std::vector<Trace> traces;
  std::optional<std::pair<double, double>> band{};  // of y: where it ought to be
  std::string band_name{};
};

// A colour as a screen shows it, which is not a glass.
struct Swatch {
  std::string name;
  std::uint8_t red = 0, green = 0, blue = 0;
};

struct Outcome {
  std::vector<ResultValue> results;
  std::vector<Changed> changes;
  std::vector<Raised> raised;
  std::vector<std::string> work;  // to be done before the additions: "draw 720 L off lot T11 as lot T11 pink"
  std::vector<Addition> additions;
  std::vector<Check> checks;
  std::vector<SecondOpinion> opinions;
  std::vector<std::string> reagents;  // of those that the calculation declares, the ones handled this time
  std::vector<std::string> notes;
  std::vector<const Input*> forgotten;  // lot keys whose value is no longer known
  std::vector<const Input*> carried;    // lot keys whose value stays, as a forecast
  std::vector<NewLot> new_lots;
  std::vector<Drawn> drawn;
  std::optional<Poured> poured{};
  std::vector<Table> tables;
  std::vector<Chart> charts;
  std::vector<Swatch> swatches;

  template <class Quantity>
  void result(const Result<Quantity>& key, Quantity value) {
    results.push_back({&key, value.value(), 0, {}});
  }
  // `own`: as a difference of two values, coherent.
  template <class Quantity>
  void result(const Result<Quantity>& key, Quantity value, double own, std::string_view own_name) {
    results.push_back({&key, value.value(), own, own_name});
  }
  template <class Quantity>
  void change(const Key<Quantity>& lot_key, Quantity value) {
    changes.push_back({&lot_key, {}});
    changes.back().value.number = value.value();
  }
  template <class Quantity>
  void raise(const Key<Quantity>& lot_key, Quantity by) {
    raised.push_back({&lot_key, by.value()});
  }
  template <class Quantity>
  void raise(const AmountsKey<Quantity>& lot_key, std::string_view name, Quantity by) {
    raised.push_back({&lot_key, by.value(), std::string(name)});
  }
  void change(const Choice& lot_key, std::string_view word) {
    changes.push_back({&lot_key, {}});
    changes.back().value.word = word;
  }
  template <class Quantity>
  void change(const AmountsKey<Quantity>& lot_key, Amounts amounts) {
    changes.push_back({&lot_key, {}});
    changes.back().value.amounts = std::move(amounts);
  }
  template <class X, class Y>
  void change(const SeriesKey<X, Y>& lot_key, Series series) {
    changes.push_back({&lot_key, {}});
    changes.back().value.series = std::move(series);
  }
  void forget(const Input& lot_key) { forgotten.push_back(&lot_key); }
  // The figure stays, and is no reading any more: a forecast of this step, which a dose waits to see measured.
  void carry_over(const Input& lot_key) { carried.push_back(&lot_key); }
  void task(std::string text) { work.push_back(std::move(text)); }
  void note(std::string text) { notes.push_back(std::move(text)); }
  // Every check of this step.
  bool holds() const {
    return std::all_of(checks.begin(), checks.end(), [](const Check& check) { return check.holds; });
  }
  // Of a step that asks for nothing: a check stands in its way, and none finds that the lot has enough.
  bool is_refused() const {
    return !holds() && std::none_of(checks.begin(), checks.end(), [](const Check& c) { return c.finds_enough(); });
  }

  // Holds `value` against a rule set's figure; `remedy` is read when it does not hold.
  template <class Quantity>
  void hold(const Limit<Quantity>& limit, const Bound<Quantity>& bound, Quantity value, int decimals,
            std::string remedy) {
    const bool holds = bound.met_by(value);
    std::string name(limit.name);
    name += " limit, " + bound.row.rules + (bound.row.condition.empty() ? "" : " (" + bound.row.condition + ")");
    checks.push_back({.name = std::move(name),
                      .holds = holds,
                      .value = Figure{limit.unit, decimals, bound.row.settled(value.value()), limit.dimension},
                      .limit = figure(bound.value, limit.unit, decimals),
                      .relation = in_words(bound.row.sense),
                      .source = bound.row.source,
                      .remedy = holds ? std::string() : std::move(remedy),
                      .on = &limit});
  }
};

}  // namespace vatwright
