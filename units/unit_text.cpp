#include "units/unit_text.hpp"

#include "units/basis.hpp"
#include "units/error.hpp"
#include "units/nearest.hpp"
#include "units/spaces.hpp"

#include <algorithm>
#include <array>
#include <cstdint>
#include <cstring>
#include <string>
#include <vector>

namespace vatwright {
namespace {

// Spellings that people write and that we do not guess at.
struct Refused {
  std::string_view text, why, hint;
};
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

// [count] symbol [exponent], such as "100 mL" or "m³".
struct Term {
  double count = 1;
  std::string_view symbol;
  int power = 1;
};

Term read_term(std::string_view text, std::size_t offset) {
  Term term;
  std::size_t digits = 0;
  while (digits < text.size() && is_digit(text[digits])) ++digits;
  if (digits > 0 && digits < text.size()) {
    if (digits > 9)
      throw InputError("the number " + in_quotes(text.substr(0, digits)) + " in a unit is too long",
                       "write such as lb/1000 gal", offset);
    term.count = 0;
    for (std::size_t i = 0; i < digits; ++i) term.count = term.count * 10 + (text[i] - '0');
    if (term.count == 0) throw InputError("a unit with a count of zero", "write such as lb/1000 gal", offset);
    text = without_outer_spaces(text.substr(digits));
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
    visit(without_outer_spaces(piece), at + lead, sign);
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
    basis = without_outer_spaces(text.substr(as + joint.size()));
    basis_at = offset + static_cast<std::size_t>(basis.data() - text.data());
    text = without_outer_spaces(text.substr(0, as));
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
        const bool counted = !piece.empty() && is_digit(piece.front()) && !term.symbol.empty();
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

}  // namespace

void unknown_unit(std::string_view term, std::size_t offset) {
  if (term.empty()) throw InputError("a unit is missing", "write such as 'mg/L'", offset);
  if (is_digit(term.front()))
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

Unit read_unit(std::string_view text, std::size_t offset) {
  thread_local LastRead last;
  return last(text, offset);
}

}  // namespace vatwright
