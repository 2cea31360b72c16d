#include "units/parse.hpp"

#include "units/constants.hpp"
#include "units/figure.hpp"
#include "units/nearest.hpp"
#include "units/no_figure.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <cstring>
#include <string>
#include <vector>

namespace vatwright {
namespace {

bool digit(char c) { return c >= '0' && c <= '9'; }

std::string_view trimmed(std::string_view s) {
  while (!s.empty() && s.front() == ' ') s.remove_prefix(1);
  while (!s.empty() && s.back() == ' ') s.remove_suffix(1);
  return s;
}

// Spaces that a spreadsheet or a word processor puts before a unit, and that nobody sees: no-break, narrow, thin.
constexpr std::string_view other_spaces[] = {"\u00a0", "\u202f", "\u2009", "\u2007"};

bool has_other_space(std::string_view text) {
  return std::any_of(std::begin(other_spaces), std::end(other_spaces),
                     [&](std::string_view space) { return text.find(space) != std::string_view::npos; });
}

// With plain spaces in their place.
std::string with_plain_spaces(std::string_view text) {
  std::string out(text);
  for (const auto space : other_spaces)
    for (auto at = out.find(space); at != std::string::npos; at = out.find(space, at + 1))
      out.replace(at, space.size(), " ");
  return out;
}

// Reads a text from left to right and knows where it stands, for the column of an error.
class Reader {
 public:
  explicit Reader(std::string_view text, std::size_t at = 0) : text_(text), at_(at) {}

  bool take(std::string_view word) {
    skip();
    if (!text_.substr(at_).starts_with(word)) return false;
    at_ += word.size();
    return true;
  }

  double number() {
    skip();
    const std::size_t start = at_;
    const bool plus = take("+");
    const bool minus = !plus && take("−");
    const auto tail = text_.substr(at_);
    const bool two_signs = (plus || minus) && tail.starts_with('-');
    const FigureRead figure = two_signs ? FigureRead{} : read_figure(tail);
    if (figure.out_of_range)
      throw InputError("the number in " + in_quotes(text_) + " is too large or too small", "check the figure", start);
    if (figure.length == 0) refuse_no_number(text_, start);
    at_ += figure.length;
    if (at_ + 1 < text_.size() && text_[at_] == ',' && digit(text_[at_ + 1]))
      throw InputError("a decimal comma in " + in_quotes(text_),
                       "write a decimal point, as in 48.5, and thousands without a mark, as in 1000", at_);
    return minus ? -figure.value : figure.value;
  }

  std::string_view rest() {
    skip();
    return text_.substr(at_);
  }
  std::size_t at() {
    skip();
    return at_;
  }

 private:
  void skip() {
    while (at_ < text_.size() && text_[at_] == ' ') ++at_;
  }
  std::string_view text_;
  std::size_t at_ = 0;
};

// Spellings that people write and that we do not guess at.
struct Refused {
  std::string_view text, why, hint;
};
// Molarity is what a reaction is reckoned with; a normality leans on the reaction that was in mind. One iodine, I2,
// takes two electrons.
constexpr std::string_view of_a_titrant =
    "write a titrant in mol/L (0.1 N sodium hydroxide is 0.1 mol/L, 0.02 N iodine is 0.01 mol/L of I2), and an "
    "acidity in eq/L";
constexpr Refused refused[] = {
    {"ppm", "does not say whether it is by mass or by volume", "of must or wine write mg/L; of a solid, mg/kg"},
    {"ppb", "does not say whether it is by mass or by volume", "of must or wine write µg/L; of a solid, µg/kg"},
    {"% v/v", "is not a unit here", "write '% vol'"},
    {"%v/v", "is not a unit here", "write '% vol'"},
    {"%vol", "is not a unit here", "write '% vol', with a space"},
    {"% w/w", "is not a unit here", "write '% mass'"},
    {"% w/v", "is not a unit here", "write g/L (1 % w/v is 10 g/L)"},
    {"% m/v", "is not a unit here", "write g/L (1 % m/v is 10 g/L)"},
    {"N", "is a normality, or a newton", of_a_titrant},
    {"normal", "is a normality", of_a_titrant},
    {"C", "is a coulomb, or a slip", "write °C or degC"},
    {"F", "is a farad, or a slip", "write °F or degF"},
};

[[noreturn]] void unknown_unit(std::string_view term, std::size_t offset) {
  if (term.empty()) throw InputError("a unit is missing", "write such as 'mg/L'", offset);
  if (digit(term.front()))
    throw InputError("a second number, " + in_quotes(term) + ", where a unit is due",
                     "write thousands without a space, and the unit after the number", offset);
  if (term.starts_with("(k"))
    throw InputError("'(k=' without the uncertainty before it", "write such as '14 ± 4 (k=2) mg/L'", offset);
  std::vector<std::string_view> known;
  for (const auto& symbol : symbols()) known.push_back(symbol.text);
  constexpr std::string_view prefixed[] = {"mg", "kg",   "µg",  "mL",  "hL",    "mS",     "µS",   "nm",
                                           "mm", "mmol", "meq", "kPa", "mol/L", "mmol/L", "eq/L", "meq/L"};
  known.insert(known.end(), std::begin(prefixed), std::end(prefixed));
  throw InputError("unknown unit " + in_quotes(term),
                   did_you_mean(term, known, "'vatwright units' lists the known ones"), offset);
}

// [count] symbol [exponent], such as "100 mL" or "m³".
struct Term {
  double count = 1;
  std::string_view symbol;
  int power = 1;
};

Term read_term(std::string_view text, std::size_t offset) {
  Term term;
  std::size_t digits = 0;
  while (digits < text.size() && digit(text[digits])) ++digits;
  if (digits > 0 && digits < text.size()) {
    if (digits > 9)
      throw InputError("the number " + in_quotes(text.substr(0, digits)) + " in a unit is too long",
                       "write such as lb/1000 gal", offset);
    term.count = 0;
    for (std::size_t i = 0; i < digits; ++i) term.count = term.count * 10 + (text[i] - '0');
    if (term.count == 0) throw InputError("a unit with a count of zero", "write such as lb/1000 gal", offset);
    text = trimmed(text.substr(digits));
  }
  constexpr std::string_view square = "²", cube = "³";
  if (text.ends_with(cube) || (text.size() > 1 && text.back() == '3')) {
    term.power = 3;
    text.remove_suffix(text.back() == '3' ? 1 : cube.size());
  } else if (text.ends_with(square) || (text.size() > 1 && text.back() == '2')) {
    term.power = 2;
    text.remove_suffix(text.back() == '2' ? 1 : square.size());
  }
  term.symbol = text;
  return term;
}

void multiply(Unit& unit, const Unit& symbol, double prefix, const Term& term, int sign) {
  double factor = term.count;
  for (int i = 0; i < term.power; ++i) factor *= prefix * symbol.factor;
  unit.factor = sign > 0 ? unit.factor * factor : unit.factor / factor;
  for (std::size_t i = 0; i < Dimension::slots; ++i)
    unit.dimension.power[i] =
        static_cast<std::int8_t>(unit.dimension.power[i] + sign * term.power * symbol.dimension.power[i]);
}

// Calls `visit(piece, offset, sign)` for each term of "lb/1000 gal": sign -1 after a '/'.
template <class Visit>
void each_term(std::string_view text, Visit visit) {
  constexpr std::string_view dot = "·";
  int sign = 1;
  for (std::size_t at = 0;;) {
    const auto tail = text.substr(at);
    const auto stop = std::min(tail.find_first_of("/*"), tail.find(dot));
    const auto piece = tail.substr(0, stop);
    const auto lead = std::min(piece.find_first_not_of(' '), piece.size());
    visit(trimmed(piece), at + lead, sign);
    if (stop == std::string_view::npos) return;
    const char op = tail[stop];
    sign = op == '/' ? -1 : 1;
    at += stop + (op == '/' || op == '*' ? 1 : dot.size());
  }
}

void apply_basis(Unit& unit, std::string_view name, std::size_t offset) {
  const Basis* basis = find_basis(name);
  if (basis == nullptr) {
    std::vector<std::string_view> known;
    for (const auto& b : bases()) known.push_back(b.name);
    throw InputError("nothing is counted as " + in_quotes(name),
                     did_you_mean(name, known, "'vatwright units' lists what a mass can be counted as"), offset);
  }
  if (unit.dimension.power[Dimension::mass] != 1)
    throw InputError("'as " + std::string(name) + "' after a unit that is not of mass",
                     "leave out 'as " + std::string(name) + "', or give a mass such as g/L", offset);
  unit.factor *= counted_per_kilogram(*basis);
  if (basis->counts == Counts::acid_equivalents) {
    unit.dimension.power[Dimension::mass] = 0;
    unit.dimension.power[Dimension::equivalents] = 1;
  } else {
    unit.counted = "nitrogen";
  }
}

Unit read_anew(std::string_view text, std::size_t offset) {
  std::string_view basis;
  std::size_t basis_at = 0;
  constexpr std::string_view joint = " as ";
  if (const auto as = text.find(joint); as != std::string_view::npos) {
    basis = trimmed(text.substr(as + joint.size()));
    basis_at = offset + static_cast<std::size_t>(basis.data() - text.data());
    text = trimmed(text.substr(0, as));
  }
  for (const auto& r : refused)
    if (text == r.text) throw InputError(in_quotes(text) + " " + std::string(r.why), std::string(r.hint), offset);
  Unit unit;
  double factor = 1;
  if (const Symbol* alone = find_symbol(text, factor)) {
    unit = alone->unit;
    unit.factor *= factor;
  } else if (text != "1") {
    constexpr int most_terms = 8;  // keeps every exponent within its eight bits
    int terms = 0;
    each_term(text, [&](std::string_view piece, std::size_t at, int sign) {
      if (++terms > most_terms)
        throw InputError("a unit of too many parts", "write such as mg/L or mL/100 mL", offset + at);
      Term term{1, piece, 1};
      const Symbol* symbol = find_symbol(piece, factor);
      if (symbol == nullptr) {
        term = read_term(piece, offset + at);
        symbol = find_symbol(term.symbol, factor);
      }
      if (symbol == nullptr) {
        const bool counted = !piece.empty() && digit(piece.front()) && !term.symbol.empty();
        unknown_unit(counted ? term.symbol : piece, offset + at);
      }
      if (symbol->unit.zero != 0 || symbol->unit.scale != Scale::linear)
        throw InputError(in_quotes(symbol->text) + " cannot be part of a larger unit",
                         symbol->unit.zero != 0 ? "write K for a difference of temperatures" : "write kg/m³",
                         offset + at);
      multiply(unit, symbol->unit, factor, term, sign);
    });
  }
  if (!basis.empty() || basis_at != 0) apply_basis(unit, basis, basis_at);
  return unit;
}

// The units that were read last on this thread, by their whole text: a sheet asks for the same few some hundred
// times. A text always means the same unit, so that nobody can tell whether it was kept; what is refused is not.
class LastRead {
 public:
  Unit operator()(std::string_view text, std::size_t offset) {
    if (text.size() > longest) return read_anew(text, offset);
    Place& place = places_[place_of(text)];
    if (place.length != text.size() || std::memcmp(place.text.data(), text.data(), text.size()) != 0) {
      place.unit = read_anew(text, offset);
      place.length = static_cast<std::uint8_t>(text.size());
      std::memcpy(place.text.data(), text.data(), text.size());
    }
    return place.unit;
  }

 private:
  static constexpr std::size_t longest = 31, many = 256;  // bytes, places
  struct Place {
    std::array<char, longest> text{};
    std::uint8_t length = longest + 1;  // of nothing
    Unit unit{};
  };
  // Fowler, Noll and Vo's hash FNV-1a, 32 bits (RFC 9923, from memory).
  static std::size_t place_of(std::string_view text) {
    std::uint32_t hash = 2166136261U;
    for (const char c : text) hash = (hash ^ static_cast<unsigned char>(c)) * 16777619U;
    return (hash ^ (hash >> 16U)) % many;
  }

  std::array<Place, many> places_{};
};

Unit read_unit(std::string_view text, std::size_t offset) {
  thread_local LastRead last;
  return last(text, offset);
}

bool take_coverage(Reader& in, double& k) {
  if (!in.take("(k")) return false;
  const std::size_t at = in.at();
  if (!in.take("="))
    throw InputError("expected '(k=2)' for an expanded uncertainty", "write such as '14 ± 4 (k=2) mg/L'", at);
  k = in.number();
  if (!in.take(")") || !(k > 0))
    throw InputError("expected '(k=2)' for an expanded uncertainty", "write such as '14 ± 4 (k=2) mg/L'", at);
  return true;
}

// A quantity's text, taken apart: number, standard uncertainty in the same unit, unit.
struct Parts {
  double number = 0, spread = 0;
  std::string_view unit{};
  std::size_t unit_at = 0;
};

Parts parts_of(std::string_view text) {
  if (text.size() > longest_quantity)
    throw InputError("a text of " + std::to_string(text.size()) + " bytes where a quantity is due",
                     "write a number and its unit, such as '30 mg/L'");
  Parts parts;
  Reader in(text);
  parts.number = in.number();
  refuse_range(parts.number, in.rest(), text);
  double k = 1;
  bool expanded = false;
  if (in.take("±") || in.take("+-") || in.take("+/-")) {
    const std::size_t at = in.at();
    parts.spread = in.number();
    if (!(parts.spread > 0))
      throw InputError("an uncertainty that is not above zero", "leave it out if it is not known", at);
    expanded = take_coverage(in, k);
  }
  parts.unit = trimmed(in.rest());
  parts.unit_at = static_cast<std::size_t>(parts.unit.data() - text.data());
  if (parts.spread > 0 && !expanded) {
    if (const auto bracket = parts.unit.find("(k"); bracket != std::string_view::npos) {
      Reader tail(text, parts.unit_at + bracket);
      take_coverage(tail, k);
      if (!tail.rest().empty())
        throw InputError("unexpected " + in_quotes(tail.rest()) + " after the uncertainty",
                         "write such as '14 ± 4 (k=2) mg/L'", tail.at());
      parts.unit = trimmed(parts.unit.substr(0, bracket));
    }
  }
  parts.spread /= k;
  return parts;
}

}  // namespace

Unit parse_unit(std::string_view text) {
  if (has_other_space(text)) return parse_unit(with_plain_spaces(text));
  return read_unit(trimmed(text), 0);
}

std::string_view unit_of(std::string_view quantity) {
  if (!has_other_space(quantity)) return parts_of(quantity).unit;
  // The unit is what the text ends with, in either spelling of the spaces.
  const std::string plain = with_plain_spaces(quantity);
  const std::string unit(parts_of(plain).unit);
  for (std::size_t from = quantity.size(); from > 0; --from)
    if (trimmed(with_plain_spaces(quantity.substr(from - 1))) == unit && quantity[from - 1] != ' ' &&
        (quantity[from - 1] & 0xC0) != 0x80)
      return quantity.substr(from - 1);
  return {};
}

Measured parse(std::string_view text) {
  if (has_other_space(text)) return parse(with_plain_spaces(text));
  const auto [number, spread, unit_text, unit_at] = parts_of(text);
  // "12 100 L" is a slip for 12100 L, not twelve times 100 L.
  if (!unit_text.empty() && digit(unit_text.front())) unknown_unit(unit_text, unit_at);
  Measured m;
  m.bare = unit_text.empty();
  const Unit unit = m.bare ? Unit{} : read_unit(unit_text, unit_at);
  m.value = unit.coherent(number);
  m.uncertainty = spread * std::abs(unit.slope(number));
  m.dimension = unit.dimension;
  m.counted = unit.counted;
  m.interval = unit.scale == Scale::linear ? number * unit.factor : 0;
  if (!std::isfinite(m.value) || !std::isfinite(m.uncertainty))
    throw InputError("the number in " + in_quotes(text) + " is too large", "check the figure");
  return m;
}

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
