// Words that every paper of an intake says alike.
#pragma once

#include "host/intake/intake.hpp"

#include <string>

namespace vatwright::intake {

// "31.0 ± 0.7": the ± with two digits, the value to match.
std::string with_doubt(double value, double standard, int decimals);

// A result as it may be used: "31.0 ± 0.7"; "none" where readings do not agree; empty where nothing was read.
std::string shown_answer(const Answer& answer, const AnswerColumn& column);

// "free SO2, mg/L"
std::string head_of(const AnswerColumn& column);

// What is to be done: for each sample and result that may not be used, why, and the way on.
std::vector<std::string> to_do(const IntakeSheet& sheet);

// "14 samples, 1 control; 54 results, of which 1 may not be used"
std::string summary(const IntakeSheet& sheet);

// The first line of a message, without the place in the mapping, and its hint.
std::string in_short(const std::string& message);

inline constexpr std::string_view waste = "Waste of the laboratory goes as local rules say.";

}  // namespace vatwright::intake
