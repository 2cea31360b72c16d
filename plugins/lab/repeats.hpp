// What every calculation that reads a sample more than once has in common: the rows of titrations, the titrant's
// factor, and what may be reported of readings that agree or do not. Two that do not agree are never averaged.
#pragma once

#include "host/plugin/plugin.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace vatwright::lab {

inline constexpr Source repeats_source{.title = "ISO 5725-6, precision in practice",
                                       .place = "5.2, readings of one laboratory",
                                       .standing = "from memory"};

inline constexpr Key<Volume> row_titrant{{.name = "titrant",
                                          .help = "volume of titrant used in this titration",
                                          .unit = "mL",
                                          .valid = Range{0, 200},
                                          .usual = Range{0.2, 50},
                                          .source = lot::guard}};
inline constexpr Need titration_columns[] = {needs(row_titrant)};
inline constexpr RowsKey titrations{
    {.name = "titrations",
     .help = "two or more titrations of one sample, such as [{titrant: 6.80 mL}, {titrant: 6.85 mL}]",
     .source = repeats_source,
     .each = titration_columns}};
inline constexpr Key<Fraction> factor{{.name = "factor",
                                       .help = "of the titrant: its true concentration over the one on the bottle",
                                       .unit = "1",
                                       .valid = Range{0.5, 1.5},
                                       .usual = Range{0.9, 1.1},
                                       .source = lot::guard}};

// The titrants of the rows, or the one that stands alone under `single`.
std::vector<Volume> titrants_of(const Inputs& in, const Key<Volume>& single);

// A figure as it is shown, with a repeatability limit: what two readings may differ by in 95 of 100.
struct ShownIn {
  std::string_view unit;
  int decimals;
};

// Coherent.
struct Reported {
  std::optional<double> value{};  // nothing: a third reading is due
  double standard = 0;            // by the repeatability, or by the scatter where no limit is known
  std::string_view name = "repeatability";
};

// Judges the readings of one sample (coherent; one or more) against `limit` (0: none is known), and says so on the
// sheet: a check where there are two or more, and what to do.
Reported report(const std::vector<double>& readings, double limit, const Dimension& dimension, ShownIn shown,
                const Inputs& in, Outcome& out);

template <class Quantity>
std::optional<Quantity> value_of(const Reported& reported) {
  if (!reported.value) return std::nullopt;
  return Quantity::from_value(*reported.value);
}

}  // namespace vatwright::lab
