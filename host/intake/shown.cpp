#include "host/intake/shown.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <sstream>

namespace vatwright::intake {

std::string with_doubt(double value, double standard, int decimals) {
  if (!(standard > 0)) return fmt::format("{:.{}f}", value, decimals);
  constexpr int most = 8;
  const int digits = std::clamp(1 - static_cast<int>(std::floor(std::log10(standard))), 0, most);
  return fmt::format("{:.{}f} ± {:.{}f}", value, digits, standard, digits);
}

std::string shown_answer(const Answer& answer, const AnswerColumn& column) {
  if (answer.readings == 0) return {};
  if (!answer.value) return "none";
  std::string text = with_doubt(*answer.value, answer.standard, column.decimals);
  return answer.may_be_used() ? text : text + (answer.held_back ? " (held back)" : " (see below)");
}

std::string head_of(const AnswerColumn& column) {
  return column.unit.empty() || column.unit == "1" || column.unit == column.name ? column.name
                                                                                 : column.name + ", " + column.unit;
}

namespace {

// One line for each reason.
void tell_held(const ControlVerdict& verdict, std::vector<std::string>& out) {
  std::vector<std::pair<std::string, std::string>> by_reason;  // why, and whose results
  for (const auto& one : verdict.held) {
    const auto at =
        std::find_if(by_reason.begin(), by_reason.end(), [&](const auto& known) { return known.first == one.why; });
    if (at == by_reason.end())
      by_reason.emplace_back(one.why, one.sample);
    else
      at->second += ", " + one.sample;
  }
  for (const auto& [why, samples] : by_reason)
    out.push_back(fmt::format("{} of {} is held back: {}", verdict.result, samples, why));
}

}  // namespace

std::vector<std::string> to_do(const IntakeSheet& sheet) {
  std::vector<std::string> out;
  for (const auto& verdict : sheet.controls)
    if (!verdict.right)
      out.push_back(fmt::format("{}, {}: {}", verdict.sample, verdict.result, verdict.words));
    else
      tell_held(verdict, out);
  for (const auto& sample : sheet.samples)
    for (std::size_t i = 0; i < sample.answers.size(); ++i)
      for (const auto& amiss : sample.answers[i].amiss)
        out.push_back(fmt::format("{}, {}: {}", sample.name, sheet.columns[i].name, amiss));
  out.insert(out.end(), sheet.notes.begin(), sheet.notes.end());
  return out;
}

std::string summary(const IntakeSheet& sheet) {
  std::size_t controls = 0, results = 0, not_used = 0;
  for (const auto& sample : sheet.samples) {
    controls += sample.control ? 1U : 0U;
    for (const auto& answer : sample.answers) {
      results += answer.readings > 0 ? 1U : 0U;
      not_used += answer.may_be_used() ? 0U : 1U;
    }
  }
  return fmt::format("{} samples, {} of them controls; {} results, {} that may not be used", sheet.samples.size(),
                     controls, results, not_used);
}

std::string in_short(const std::string& message) {
  std::istringstream in(message);
  std::vector<std::string> lines;
  for (std::string line; std::getline(in, line);) lines.push_back(line);
  std::string first = lines.empty() ? message : lines.front();
  const auto calculation = first.find(": ");
  if (calculation != std::string::npos && first.find(".yaml:") < calculation) first = first.substr(calculation + 2);
  const bool hint = lines.size() == 2 || lines.size() == 4;
  return hint ? first + "; " + lines.back().substr(lines.back().find_first_not_of(' ')) : first;
}

}  // namespace vatwright::intake
