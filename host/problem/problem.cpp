#include "host/problem/problem.hpp"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <string_view>
#include <tuple>
#include <utility>

namespace vatwright {
namespace {

// "message\n  hint"
Problem of_words(const std::string& words) {
  constexpr std::string_view between = "\n  ";
  const auto at = words.find(between);
  if (at == std::string::npos) return {{}, words, {}};
  return {{}, words.substr(0, at), words.substr(at + between.size())};
}

std::string words_of(const std::vector<Problem>& problems) {
  constexpr std::size_t most = 50;  // on a page of words; a program is given all of them
  std::string out;
  for (std::size_t i = 0; i < std::min(most, problems.size()); ++i) {
    if (i > 0) out += "\n";
    out += words_of(problems[i]);
  }
  if (problems.size() > most) out += fmt::format("\n... and {} more", problems.size() - most);
  return out;
}

bool same(const Problem& a, const Problem& b) {
  return a.place.file == b.place.file && a.place.line == b.place.line && a.place.column == b.place.column &&
         a.message == b.message;
}

}  // namespace

std::string words_of(const Problem& problem) {
  constexpr std::size_t widest = 160;  // a longer line is cut, and its caret left out
  const Place& place = problem.place;
  std::string text = place.file;
  if (place.line > 0) text += fmt::format(":{}:{}", place.line, place.column);
  if (!text.empty()) text += ": ";
  text += problem.message;
  if (!place.excerpt.empty() && place.excerpt.size() <= widest)
    text += fmt::format("\n  {:>4} | {}\n       | {:>{}}", place.line, place.excerpt, "^", place.column);
  if (!problem.hint.empty()) text += "\n  " + problem.hint;
  return text;
}

std::string json_of(const std::vector<Problem>& problems, int status) {
  using Json = nlohmann::ordered_json;
  Json json{{"status", status}, {"problems", Json::array()}};
  for (const auto& [place, message, hint] : problems) {
    Json one = Json::object();
    if (!place.file.empty()) one["file"] = place.file;
    if (place.line > 0) {
      one["line"] = place.line;
      one["column"] = place.column;
    }
    if (!place.excerpt.empty()) one["excerpt"] = place.excerpt;
    one["message"] = message;
    if (!hint.empty()) one["hint"] = hint;
    json["problems"].push_back(std::move(one));
  }
  // What was read may be no UTF-8; it is replaced, not refused.
  return json.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

BadInput::BadInput(std::vector<Problem> problems)
    : std::runtime_error(words_of(problems)),
      problems_(std::make_shared<const std::vector<Problem>>(std::move(problems))) {}

BadInput::BadInput(const std::string& words) : BadInput(of_words(words)) {}

PluginError::PluginError(Problem problem)
    : std::runtime_error(words_of(problem)), problem_(std::make_shared<const Problem>(std::move(problem))) {}

PluginError::PluginError(const std::string& words) : PluginError(of_words(words)) {}

void Slips::add(const std::vector<Problem>& problems) {
  for (const auto& problem : problems)
    if (std::none_of(problems_.begin(), problems_.end(), [&](const Problem& known) { return same(known, problem); }))
      problems_.push_back(problem);
}

void Slips::raise() const {
  if (none()) return;
  std::vector<std::string> files;
  const auto turn = [&](const Problem& problem) {
    const auto at = std::find(files.begin(), files.end(), problem.place.file);
    return std::tuple(at - files.begin(), problem.place.line, problem.place.column);
  };
  for (const auto& problem : problems_)
    if (std::find(files.begin(), files.end(), problem.place.file) == files.end()) files.push_back(problem.place.file);
  auto sorted = problems_;
  std::stable_sort(sorted.begin(), sorted.end(), [&](const Problem& a, const Problem& b) { return turn(a) < turn(b); });
  throw BadInput(std::move(sorted));
}

}  // namespace vatwright
