// The law's own words in a language of the Union: hazard statements by code, signal words, and the words for sulfites
// and allergens on a label. A file a language in languages/; every other word of a sheet stays English.
#pragma once

#include <cstddef>
#include <filesystem>
#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace vatwright {

// One wording in another language; without text none is known.
struct Wording {
  std::string language, text;
};

class Language {
 public:
  // Throws BadInput when the file is not in order.
  explicit Language(const std::filesystem::path& file);

  const std::string& code() const { return code_; }  // "fr"
  const std::string& name() const { return name_; }  // "French"
  // The statement of a code (H318), or the word for an English one (Danger, sulfites).
  Wording say(std::string_view what) const;
  // For the head of a sheet: what stands in that language, and how far its wordings were found.
  std::string told_on_a_sheet() const;

 private:
  std::string code_, name_;
  std::map<std::string, std::string, std::less<>> words_;
  std::size_t seen_once_ = 0;
};

inline constexpr std::string_view no_wording = "the official wording is not known here";

// "fr: Danger"; a wording that is missing is said.
std::string in_words(const Wording& said);

// The languages that there is a file for, in the order of the alphabet.
std::vector<std::string> language_codes(const std::filesystem::path& folder);

// Throws InputError for a language that there is no file for; those that there are are named.
Language named_language(const std::filesystem::path& folder, std::string_view code);

}  // namespace vatwright
