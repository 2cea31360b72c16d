#include "host/cli/past_of_book.hpp"

#include "host/book/readings.hpp"

#include <memory>

namespace vatwright {
namespace {

// Empty where there is none.
std::filesystem::path book_that_is_there(const BookOptions& options) {
  if (!options.file.empty()) return options.file;
  try {
    auto own = book::default_file();
    std::error_code ec;
    return std::filesystem::exists(own, ec) ? own : std::filesystem::path();
  } catch (const BadInput&) {
    return {};  // a person without a home has no book
  }
}

}  // namespace

intake::Past past_of_book(const BookOptions& options) {
  const auto file = book_that_is_there(options);
  if (file.empty()) return {};
  const auto book = std::make_shared<const book::Book>(file, book::Book::To::read);
  return [book](const std::string& sample, const Input& fact) {
    std::vector<intake::PastReading> past;
    for (const auto& reading : book::readings_of(*book, sample, fact))
      past.push_back({book::day_of(reading.at), reading.number});
    return past;
  };
}

}  // namespace vatwright
