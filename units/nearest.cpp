#include "units/nearest.hpp"

#include "units/everyday.hpp"

#include <algorithm>
#include <cctype>
#include <vector>

namespace vatwright {
namespace {

constexpr std::size_t longest = 80;  // words beyond this are not spellings of anything

int lower(char c) { return std::tolower(static_cast<unsigned char>(c)); }

// Optimal string alignment distance, in quarters of a slip.
int slips(std::string_view a, std::string_view b) {
  std::vector<std::vector<int>> d(a.size() + 1, std::vector<int>(b.size() + 1));
  for (std::size_t i = 0; i <= a.size(); ++i) d[i][0] = static_cast<int>(4 * i);
  for (std::size_t j = 0; j <= b.size(); ++j) d[0][j] = static_cast<int>(4 * j);
  for (std::size_t i = 1; i <= a.size(); ++i) {
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const int change = a[i - 1] == b[j - 1] ? 0 : lower(a[i - 1]) == lower(b[j - 1]) ? 1 : 4;
      d[i][j] = std::min({d[i - 1][j] + 4, d[i][j - 1] + 4, d[i - 1][j - 1] + change});
      if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
        d[i][j] = std::min(d[i][j], d[i - 2][j - 2] + 4);
    }
  }
  return d[a.size()][b.size()];
}

// In small letters and without spaces; one letter alone as it is, since M is no m.
std::string plain(std::string_view word) {
  std::string out;
  for (const char c : word)
    if (c != ' ') out += static_cast<char>(lower(c));
  return out.size() == 1 ? std::string(1, *std::find_if(word.begin(), word.end(), [](char c) { return c != ' '; }))
                         : out;
}

// The one of `known` that is ours for an everyday word; empty when there is none.
std::string_view ours_of(std::string_view word, const std::string& plain_word,
                         std::span<const std::string_view> known) {
  for (const auto& everyday : everyday_words()) {
    if (everyday.word != plain_word && everyday.word != word) continue;
    if (const auto at = std::find(known.begin(), known.end(), everyday.ours); at != known.end()) return *at;
  }
  return {};
}

// The only one of `known` that differs in spaces and case alone.
std::string_view same_letters(const std::string& plain_word, std::span<const std::string_view> known) {
  std::string_view same;
  for (const auto candidate : known) {
    if (candidate.size() > longest || plain(candidate) != plain_word || candidate == same) continue;
    if (!same.empty()) return {};
    same = candidate;
  }
  return same;
}

// The only one of `known` of which `word` is a part: 'molecular SO2' of 'target molecular SO2'.
std::string_view whole_of(std::string_view word, std::span<const std::string_view> known) {
  constexpr std::size_t shortest = 5;
  std::string_view whole;
  for (const auto candidate : known) {
    if (word.size() < shortest || candidate == whole || candidate.find(word) == std::string_view::npos) continue;
    if (!whole.empty()) return {};
    whole = candidate;
  }
  return whole;
}

}  // namespace

std::string_view nearest(std::string_view word, std::span<const std::string_view> known) {
  if (word.size() > longest) return {};
  const std::string plain_word = plain(word);
  if (const auto ours = ours_of(word, plain_word, known); !ours.empty()) return ours;
  if (const auto same = same_letters(plain_word, known); !same.empty()) return same;
  std::string_view best;
  bool tied = false;
  int fewest = static_cast<int>(4 * std::max<std::size_t>(1, word.size() / 3)) + 1;
  for (const auto candidate : known) {
    if (candidate.size() > longest || candidate == best) continue;
    const int s = slips(word, candidate);
    if (s > fewest || (s == fewest && best.empty())) continue;
    tied = s == fewest;
    fewest = s;
    best = candidate;
  }
  if (best.empty()) return whole_of(word, known);
  return tied ? std::string_view() : best;
}

namespace {

std::vector<std::string_view> words_of(std::string_view text) {
  std::vector<std::string_view> words;
  while (!text.empty()) {
    const auto end = std::min(text.find(' '), text.size());
    if (end > 0) words.push_back(text.substr(0, end));
    text.remove_prefix(std::min(end + 1, text.size()));
  }
  return words;
}

// The word of `other` that is no spelling of the one in its place: 'free' of 'target free SO2' for 'target total
// SO2'. Empty where each is, or where the words are not as many.
std::pair<std::string_view, std::string_view> word_apart(std::string_view word, std::string_view other) {
  const auto here = words_of(word), there = words_of(other);
  for (std::size_t i = 0; here.size() == there.size() && i < here.size(); ++i)
    if (slips(here[i], there[i]) > static_cast<int>(4 * std::max<std::size_t>(1, here[i].size() / 3)))
      return {here[i], there[i]};
  return {};
}

}  // namespace

std::string did_you_mean(std::string_view word, std::span<const std::string_view> known, std::string_view otherwise) {
  const auto close = nearest(word, known);
  if (close.empty()) return std::string(otherwise);
  const bool ours = close == ours_of(word, plain(word), known);
  const auto [here, there] =
      ours || words_of(word).size() < 2 ? decltype(word_apart(word, close))() : word_apart(word, close);
  // Near in its letters is not near in its meaning: whoever follows the hint must know.
  if (!here.empty())
    return "there is " + in_quotes(close) + ", which is another thing: " + in_quotes(there) + ", not " +
           in_quotes(here);
  return "the nearest known one is " + in_quotes(close);
}

}  // namespace vatwright
