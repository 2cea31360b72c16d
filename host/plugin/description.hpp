// How a calculation describes itself: constant data that the host can list, explain and check
// a recipe against before any code of the plugin has run. A name, a unit and a range stand here
// once; help, command line, JSON and checks are made from them.
#pragma once

#include "host/plugin/behaviour.hpp"
#include "units/dimension.hpp"

#include <cstdint>
#include <optional>
#include <span>
#include <string_view>
#include <vector>

namespace vatwright {

class Inputs;
class Readings;
struct Outcome;
struct Disagreement;

// Where a number comes from. `standing` says how far to trust the citation: empty when the value
// was read there, else "from memory", "common practice, no source", "derived".
struct Source {
  std::string_view title{};
  std::string_view place{};  // article, section, table
  std::string_view standing{};
};

// A closed interval, in the unit of what it bounds.
struct Range {
  double low, high;
};

enum class Kind : std::uint8_t {
  quantity,   // "14 mg/L"
  choice,     // one of a few words
  substance,  // one of a few substances of the catalogue
  series,     // a map of quantity -> quantity, such as nm -> AU
  shares,     // a map of name -> share of the whole, or one name alone
  amounts,    // a map of a few names -> quantity, such as substance -> what was added of it
  name,       // a word of the person's own, such as the name of a plot
  new_lot,    // the name of a lot that the step makes
  date,       // 2026-09-14
  bounds,     // a map of keys -> "at most 3.4 g/L", "at least ...", "11 to 12 % vol", or one figure
  lots,       // a map of lots of the recipe -> a figure, or a map of figures, for each
  rows,       // a list of maps: a table of readings
};

struct Input;

// A calculation's claim on an input: needs(x) must be given by the step or the lot; takes(x) may
// be; takes(x, "20 °C") falls back to a value written as a person would write it.
struct Need {
  const Input* input;
  std::string_view fallback;
  bool required;
  bool anew = false;
};
constexpr Need needs(const Input& input) { return {&input, {}, true}; }
constexpr Need takes(const Input& input, std::string_view fallback = {}) { return {&input, fallback, false}; }
// A lot key that the step may say otherwise than its lot: a reading that was taken for this step, or
// what it was taken at. Of every other the host refuses a second value.
constexpr Need anew(Need need) {
  need.anew = true;
  return need;
}

struct Input {
  std::string_view name{};       // the key in a recipe
  std::string_view help{};       // one line, no full stop
  std::string_view unit{};       // the one shown; every unit of its dimension is taken; "1": a plain number
  std::optional<Range> valid{};  // outside: refused. Required for a quantity
  std::optional<Range> usual{};  // outside: a note on the worksheet
  // For forms: a label (by default made of the name), what stands together, further names that people write (only
  // ever offered), and a line of help to each of the choices, in their order.
  std::string_view label{}, group{};
  std::span<const std::string_view> aliases{}, choices_help{};
  std::span<const std::string_view> choices{};  // words, or substance ids
  Source source{};                              // of the range, or of what the input means
  std::string_view x_unit{};                    // of a series' first column, with the range that it is held to
  std::optional<Range> x_valid{};
  Behaviour behaves{};  // of a fact of a lot
  // Of lots and rows: what each of them may say; of bounds: the keys that may be bound. A figure
  // alone in place of a lot's map goes to the first of its dimension.
  std::span<const Need> each{};
  // Of an acidity that is always counted as one acid unless it says otherwise itself: that acid. A
  // recipe's `acid basis` does not reach it.
  std::string_view basis{};

  // Filled in by the typed keys (host/plugin/keys.hpp), never by hand.
  Kind kind = Kind::choice;
  Dimension dimension{};
  std::string_view counted{};
  Dimension x_dimension{};
};

// Exactly one of these must be given.
using OneOf = std::span<const Input* const>;

struct ResultInfo {
  std::string_view name{}, help{}, unit{};
  int decimals = 1;
  // What the step decides on, such as a dose. It is held while readings are drawn for the uncertainty of what follows
  // from it (Inputs::decided). Of one per volume of the lot, what was weighed for it is held.
  bool decided = false;
  // Where the trade wants it, in `unit`; the sheet says how likely it is to be there.
  std::optional<Range> band{};
  std::string_view label{};  // by default made of the name
  Dimension dimension{};     // filled in by Result
};

// A figure of the rule sets, by the name that it has in host/rules/*.yaml.
struct LimitInfo {
  std::string_view name{}, help{}, unit{};
  bool beside = false;    // on what comes with a dose, such as its water, and not on what is dosed
  Dimension dimension{};  // filled in by Limit
};

// What a calculation takes for true and nobody measured, and how far that is off from one wine to the next: a standard
// uncertainty of type B (JCGM 100, 4.3), never nought. The host moves it as it moves a reading that carries a ±.
struct ModelInfo {
  std::string_view name{};  // "sugar to alcohol"
  std::string_view help{};  // what is taken for true
  std::string_view unit{};  // of `standard`
  double standard = 0;
  Source source{};             // of `standard`, with its standing
  std::string_view measure{};  // what to measure, so that it counts for less: "tartaric acid and malic acid"
  Dimension dimension{};       // filled in by Model
};

// Choices of an input that another calculation answers, because there the lot moves with them: "tartaric acid" of a
// plain dose. A step that says one of them is bound as a step of that calculation.
struct HandOver {
  struct Pair {
    std::string_view name, there;
  };
  const Input* input;
  std::span<const std::string_view> choices;
  std::string_view to;              // "acid.addition"
  std::span<const Pair> renamed{};  // inputs that have another name there; all others keep theirs
  std::span<const Pair> says{};     // inputs there, and what they say for these choices: {"add as", "product"}
  // Of a lot that says too little for that calculation the step stays with this one, where no rules are asked for:
  // nothing could be held against them. `one_reading`: of which one is needed, beside what must be given.
  bool stays_if_unknown = false;
  std::span<const std::string_view> one_reading{};
  std::string_view instead{};  // how to say it where that calculation has no input of the name
};

struct Calculation {
  std::string_view name;  // "addition"; the host puts the plugin's name and a point before it
  std::string_view help;
  std::span<const Need> inputs{};
  std::span<const OneOf> one_of{};
  std::span<const ResultInfo* const> results{};
  std::span<const Input* const> changes{};       // lot keys that it may change
  std::span<const LimitInfo* const> limits{};    // figures of the rule sets that it may ask for
  std::span<const std::string_view> reagents{};  // substances that may be handled without being added
  std::span<const ModelInfo* const> models{};    // what its figures are uncertain by, whatever the readings
  std::span<const Source> sources{};
  std::span<const std::string_view> example{};  // a worked example: "pH=3.40", ...
  std::string_view example_recipe{};            // or a whole recipe, where several lots are needed
  bool on_lot = true;                           // false: it looks at no single lot, and a step may not name one
  bool repeatable = true;                       // false: too long or too discrete to be drawn again for its uncertainty
  bool measures = false;                        // true: it reckons readings, as a titration does; false: forecasts
  // Readings of the lot that contradict each other, asked before `run`: one that takes any of them is not run then, and
  // the sheet says why. Whatever doses has one; pure too.
  std::vector<Disagreement> (*agree)(const Readings& lot) = nullptr;
  // Pure: the same inputs give the same outcome, on any thread. Throws InputError for inputs that
  // are each in range but impossible together; never returns half an answer.
  Outcome (*run)(const Inputs&) = nullptr;
  // For forms: by default the help, the plugin, none.
  std::string_view label{}, group{};
  std::span<const std::string_view> aliases{};
  std::span<const HandOver> hands_over{};
};

// The one symbol that a plugin exports. The first three members keep their place for ever.
struct Manifest {
  std::uint32_t magic;
  std::uint32_t interface;
  const char* toolchain;
  std::string_view name, version, help;
  std::span<const Calculation> calculations;
};

}  // namespace vatwright
