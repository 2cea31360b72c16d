// Standard atomic weights, abridged to five figures, and molar masses from chemical formulas.
// Source: IUPAC CIAAW, Prohaska et al., Standard atomic weights of the elements 2021,
// Pure Appl. Chem. 94 (2022) 573-600, table 2 (values from memory; checked in tests/published
// against an independent program).
#pragma once

#include "units/constants.hpp"

#include <array>
#include <stdexcept>
#include <string_view>

namespace vatwright {

struct Element {
  std::string_view symbol;
  double weight;  // g/mol
};

inline constexpr std::array<Element, 19> elements{{
    {"H", 1.008},   {"C", 12.011},  {"N", 14.007},  {"O", 15.999},  {"F", 18.998}, {"Na", 22.990}, {"Mg", 24.305},
    {"Al", 26.982}, {"Si", 28.085}, {"P", 30.974},  {"S", 32.06},   {"Cl", 35.45}, {"Ar", 39.95},  {"K", 39.098},
    {"Ca", 40.078}, {"Mn", 54.938}, {"Fe", 55.845}, {"Cu", 63.546}, {"I", 126.90},
}};

namespace detail {

class FormulaReader {
 public:
  constexpr explicit FormulaReader(std::string_view text) : text_(text) {}

  // A formula is groups joined by '·', each with an optional count before it: CuSO4·5H2O.
  constexpr double read() {
    double sum = 0;
    do {
      const double times = count();
      sum += times * sequence();
    } while (skip_dot());
    if (at_ != text_.size()) throw std::invalid_argument("a chemical formula has a character that it cannot have");
    return sum;
  }

 private:
  constexpr bool is(char low, char high) const { return at_ < text_.size() && text_[at_] >= low && text_[at_] <= high; }
  constexpr double count() {
    if (!is('0', '9')) return 1;
    double n = 0;
    while (is('0', '9')) n = n * 10 + (text_[at_++] - '0');
    if (n == 0) throw std::invalid_argument("a chemical formula with a count of zero");
    return n;
  }
  constexpr bool skip_dot() {
    constexpr std::string_view dot = "·";
    if (!text_.substr(at_).starts_with(dot)) return false;
    at_ += dot.size();
    return true;
  }
  constexpr double sequence() {
    double sum = 0;
    while (is('A', 'Z') || is('(', '(')) {
      double one = 0;
      if (is('(', '(')) {
        ++at_;
        one = sequence();
        if (!is(')', ')')) throw std::invalid_argument("a chemical formula with an open bracket");
        ++at_;
      } else {
        one = element();
      }
      sum += one * count();
    }
    if (sum == 0) throw std::invalid_argument("a chemical formula, or a group of one, with nothing in it");
    return sum;
  }
  constexpr double element() {
    const std::size_t start = at_++;
    while (is('a', 'z')) ++at_;
    const auto symbol = text_.substr(start, at_ - start);
    for (const auto& e : elements)
      if (e.symbol == symbol) return e.weight;
    throw std::invalid_argument("a chemical formula with an element that is not in the table");
  }

  std::string_view text_;
  std::size_t at_ = 0;
};

}  // namespace detail

// Molar mass of a formula such as "K2S2O5", "(NH4)2HPO4" or "CuSO4·5H2O".
// Throws std::invalid_argument for anything else; in a constant expression that is a compile error.
constexpr MolarMass molar_mass(std::string_view formula) {
  return detail::FormulaReader(formula).read() * gram_per_mole;
}

}  // namespace vatwright
