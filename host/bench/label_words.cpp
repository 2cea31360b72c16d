#include "host/bench/label_words.hpp"

#include <array>

namespace vatwright {
namespace {

// As the catalogue and the sheets have them.
constexpr std::array<std::string_view, 4> terms{"contains sulfites", "sulfites", "milk", "egg"};

bool names(std::string_view text, std::string_view term) {
  return term.starts_with("contains ") ? text.find(term) != std::string_view::npos
                                       : text == "contains " + std::string(term);
}

bool speaks_of(const StepSheet& step, std::string_view term) {
  for (const auto* substance : step.added)
    if (substance->facts.label.allergen == term) return true;
  for (const auto& note : step.outcome.notes)
    if (names(note, term)) return true;
  for (const auto& table : step.outcome.tables)
    for (const auto& row : table.rows)
      for (const auto& cell : row)
        if (const auto* words = std::get_if<std::string>(&cell); words != nullptr && names(*words, term)) return true;
  return false;
}

}  // namespace

void note_label_words(std::span<const Language> languages, StepSheet& step) {
  if (languages.empty()) return;
  std::vector<std::string> said;
  for (const auto term : terms) {
    if (!speaks_of(step, term)) continue;
    std::string words = "on the label, '" + std::string(term) + "' is ";
    for (const auto& language : languages)
      words += (&language == &languages.front() ? "" : "; ") + in_words(language.say(term));
    said.push_back(std::move(words));
  }
  for (auto& words : said) step.outcome.note(std::move(words));
}

}  // namespace vatwright
