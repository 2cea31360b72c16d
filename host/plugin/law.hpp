// What the rule sets of a recipe say, as a calculation is given it.
#pragma once

#include <array>
#include <cmath>
#include <cstdint>
#include <limits>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace vatwright {

// `below` is a ceiling that a figure may not touch.
enum class Sense : std::uint8_t { at_most, at_least, below };
constexpr bool is_ceiling(Sense sense) { return sense != Sense::at_least; }
constexpr std::string_view in_words(Sense sense) {
  constexpr std::array<std::string_view, 3> words{"at most", "at least", "below"};
  return words[static_cast<std::size_t>(sense)];
}
// The same of the relation of a check, which is one of these words or "equals".
constexpr bool is_ceiling(std::string_view relation) {
  return relation == in_words(Sense::at_most) || relation == in_words(Sense::below);
}

// The strictest figure that the recipe's rule sets give for this lot.
struct LimitRow {
  double number = 0;  // coherent
  Sense sense = Sense::at_most;
  std::string rules{};      // "EU"
  std::string condition{};  // "pink, sugar below 5 g/L"
  std::string source{};     // article and date of the text

  // A figure that arithmetic leaves a hair (a billionth) past the limit stands on it.
  double settled(double value) const { return std::abs(value - number) <= 1e-9 * std::abs(number) ? number : value; }
  bool met_by(double value) const {
    const double figure = settled(value);
    if (sense == Sense::below) return figure < number;
    return sense == Sense::at_most ? figure <= number : figure >= number;
  }
};

template <class Quantity>
struct Bound {
  Quantity value;
  LimitRow row;

  bool met_by(Quantity figure) const { return row.met_by(figure.value()); }
};

// A word of the label that the law ties to the sugar of a wine: "dry", "brut". Several rows may
// give one word; a wine may go by every word whose row it meets.
struct TermRow {
  std::string word;
  double least_sugar = 0;                                       // coherent, mass per volume
  double most_sugar = std::numeric_limits<double>::infinity();  // coherent, mass per volume
  // When the row asks for it: sugar less titratable acidity as tartaric acid is at most this,
  // coherent, mass per volume.
  std::optional<double> most_over_acidity{};
  std::string rules{}, condition{}, source{};
  std::string meaning{};  // what else the row says: "no sugar added after the second fermentation"
};

// What a blend may be made of.
struct CompositionRule {
  std::string name;                                               // as the rule set words it
  std::string of;                                                 // "variety", "vintage", "origin" or "colour"
  std::vector<std::string> among{};                               // the named set; empty: whatever there is
  std::optional<int> least_members{};                             // at least so many of the set are present
  std::optional<double> together_at_least{}, together_at_most{};  // the set's share of the whole, 0 to 1
  std::optional<double> each_at_most{};                           // any single one's share, 0 to 1
  bool never_together = false;                                    // no two of the set in one blend
  std::string rules{}, condition{}, source{};
};

// What a substance is added for. A rule set may say which ones it knows for each.
namespace purpose {
inline constexpr std::string_view acidify = "acidify", deacidify = "deacidify", sulfite = "sulfite", enrich = "enrich",
                                  nourish = "nourish", sweeten = "sweeten";
inline constexpr std::array<std::string_view, 6> all{acidify, deacidify, sulfite, enrich, nourish, sweeten};
}  // namespace purpose

struct AgentRule {
  std::string purpose;
  std::vector<std::string> only{};  // by the names of the catalogue; empty: any
  std::string authorised_by{};      // whoever has to allow it first; empty: nobody
  std::string rules{}, condition{}, source{};
};

}  // namespace vatwright
