#include "units/expect.hpp"

#include "units/nearest.hpp"
#include "units/unit_text.hpp"

#include <fmt/format.h>

#include <cmath>
#include <string>

namespace vatwright {
namespace {

// A number without a unit, where the unit that is due says it all: pH, SG, a plain number.
bool reads_bare(Measured& m, const Expected& expected) {
  if (expected.unit == "1" || expected.dimension.plain()) return expected.unit == "1";
  double factor = 1;
  const Symbol* symbol = find_symbol(expected.unit, factor);
  if (symbol == nullptr || !symbol->bare) return false;
  m.uncertainty *= std::abs(symbol->unit.slope(m.value));
  m.value = symbol->unit.coherent(m.value);
  m.dimension = symbol->unit.dimension;
  return true;
}

// How to mend a quantity of another kind than is due.
std::string of_its_kind(const Measured& m, const Expected& expected, std::string_view text) {
  if (m.dimension == dimension_of<Acidity>() && expected.dimension == dimension_of<AmountConcentration>())
    return std::string(of_a_titrant);
  if (expected.unit.empty() || expected.unit == "1" || expected.unit == "pH") return "write a plain number";
  std::string hint = "give it in " + std::string(expected.unit) + " or another unit of its kind";
  const bool by_mass = text.ends_with("g/kg") || text.ends_with("g/t");
  if (by_mass && expected.dimension == dimension_of<MassConcentration>())
    return "write it as mass per volume, such as mg/L: a litre of wine weighs about a kilogram, so that 14 mg/kg is "
           "about "
           "14 mg/L";
  // Stocks are labelled so: grams in 100 mL.
  if (m.dimension.plain() && expected.dimension == dimension_of<MassConcentration>() && expected.counted.empty())
    hint += fmt::format("; {:.6g} % m/v (grams in 100 mL) is {:.6g} g/L", 100 * m.value, 1000 * m.value);
  return hint;
}

}  // namespace

Measured expect(const Measured& measured, const Expected& expected, std::string_view text) {
  Measured m = measured;
  const std::string example = expected.unit.empty() || expected.unit == "1" ? "" : std::string(expected.unit);
  if (m.bare && !reads_bare(m, expected))
    throw InputError("no unit after " + in_quotes(text), "write " + in_quotes(std::string(text) + " " + example),
                     text.size());
  const bool mass_per =
      m.dimension.power[Dimension::mass] == 1 && expected.dimension.power[Dimension::equivalents] == 1;
  if (mass_per && m.counted.empty()) {
    Dimension counted = m.dimension;
    counted.power[Dimension::mass] = 0;
    counted.power[Dimension::equivalents] = 1;
    if (counted == expected.dimension) {
      if (expected.acid_basis == nullptr)
        throw InputError(in_quotes(text) + " does not say which acid it is counted as",
                         "write " + in_quotes(std::string(text) + " as tartaric acid") +
                             ", or state 'acid basis: tartaric acid' for the whole recipe",
                         text.size());
      const double per_kilogram = counted_per_kilogram(*expected.acid_basis);
      m.value *= per_kilogram;
      m.uncertainty *= per_kilogram;
      m.dimension = counted;
    }
  }
  if (m.dimension.point && !expected.dimension.point && expected.dimension.power[Dimension::temperature] == 1) {
    m.value = m.interval;
    m.dimension.point = false;
  }
  if (m.dimension != expected.dimension)
    throw InputError("expected " + describe(expected.dimension) + ", read " + in_quotes(text) + ", which is " +
                         describe(m.dimension),
                     of_its_kind(m, expected, text));
  if (m.counted != expected.counted && !m.counted.empty())
    throw InputError(in_quotes(text) + " is counted as " + std::string(m.counted) + ", which this is not",
                     "leave out 'as ...'");
  m.bare = false;
  return m;
}

}  // namespace vatwright
