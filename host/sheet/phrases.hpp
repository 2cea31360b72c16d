// Words that every written worksheet says alike.
#pragma once

#include "host/bench/worksheet.hpp"

#include <string>
#include <string_view>

namespace vatwright {

// The foot of every sheet.
inline constexpr std::string_view sheet_foot =
    "A calculation aid. The supplier's label and safety data sheet, the law in force where you are, and the "
    "judgement of a licensed or trained person come before it. Try it on the bench first; measure again after "
    "every addition.";
// And of the short form.
inline constexpr std::string_view short_words =
    "The short form: numbers, checks, sources and the handling of each substance are on the full sheet.";
inline constexpr std::string_view no_rules = "none were asked for: no legal limit has been checked";

// "pink.yaml (SHA-256 0123456789ab...)"; the name alone where the hash is not known.
std::string recipe_words(const std::string& file, const std::string& sha256);

// "3 of 7 FAIL", "7 of 7 hold", or that there was nothing to check.
// Of those that need an authorisation neither is said: "6 of 6 hold; 1 needs an authorisation".
struct CheckCount {
  std::size_t failing = 0, all = 0, asking = 0;
  std::string words() const;
};
CheckCount count_checks(const Worksheet& sheet);
inline constexpr std::string_view needs_authorisation = "needs an authorisation";
inline bool asks_first(const Check& check) { return !check.authorised_by.empty(); }
// "holds", "FAILS", "needs an authorisation".
std::string_view verdict_of(const Check& check);
// Each that needs an authorisation, in the order of the steps.
std::vector<std::string> asking_first(const Worksheet& sheet);
inline constexpr std::string_view before_work = "read them before any work";

// ": 86.2 mg/L (at most 200.0 mg/L)"; empty when the check has no figures. Of a check that fails the two figures
// never look alike: they have more decimals where need be.
std::string comparison(const Check& check);

// How the uncertainty was found, and what ± means; empty when no reading carries one.
inline constexpr std::string_view what_plus_minus_is = "a standard uncertainty; twice of it covers about 95 %";
std::string uncertainty_words(const UncertaintyStatement& uncertainty);
// "; 80 % of the ± from pH": what does most of it (of the variance); empty when that is not known.
std::string chief(const ResultValue& result, const Spread& spread);
// That an addition's amount is uncertain, but is weighed as written; empty when it is not.
std::string uncertain_amount(const StepSheet& step, std::size_t addition);
// The spread of a step's result; none when nothing is uncertain.
Spread spread_of(const StepSheet& step, std::size_t result);

// How far the second opinion lies off, when that matters; empty when it does not.
std::string difference(const SecondOpinion& opinion);

// Where an input came from: "this lot", "the default", "step 1".
std::string origin(const Origin& from);

// "B1, made by step 1, as if step 1 were done": what heads its values before and after.
std::string lot_title(const LotSheet& lot);

// "sugar, g/L"; the name alone for words, a plain number, or where the name is the unit.
std::string named_unit(std::string_view name, std::string_view unit);
std::string shown_cell(const Cell& cell, const Column& column);

}  // namespace vatwright
