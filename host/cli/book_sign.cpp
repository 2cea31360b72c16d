#include "host/cli/book_sign.hpp"

#include "host/cli/book_commands.hpp"
#include "host/cli/house.hpp"
#include "host/cli/output.hpp"
#include "host/yaml/document.hpp"

#include <fmt/format.h>

#include <cctype>
#include <charconv>

namespace vatwright {
namespace {

using book::Book;

// "Ann Reed" and " ann  reed" are one person.
std::string plainly(const std::string& name) {
  std::string out;
  for (const char c : name) {
    const auto letter = static_cast<unsigned char>(c);
    if (std::isspace(letter) == 0) out += static_cast<char>(std::tolower(letter));
  }
  return out;
}

std::int64_t number_to_sign(const std::string& text) {
  std::int64_t number = 0;
  const auto* end = text.data() + text.size();
  const auto read = std::from_chars(text.data(), end, number);
  if (read.ec != std::errc() || read.ptr != end)
    throw BadInput("expected the number of a sheet, read '" + text + "'\n  such as 'vatwright book sign 12 --by NAME'");
  return number;
}

book::Entry sheet_to_sign(const Book& book, std::int64_t number, const std::string& by) {
  auto entry = book.entry(number);
  if (entry.kind != book::kept)
    throw BadInput(
        fmt::format("entry {} is no sheet: it is {}\n  'vatwright book history LOT' shows the sheets of a lot", number,
                    entry.kind));
  if (const auto other = book.corrected_by(number))
    throw BadInput(fmt::format("sheet {} no longer stands: entry {} took its place\n  sign the sheet that stands",
                               number, *other));
  if (plainly(by).empty()) throw BadInput("nobody signs\n  say who does: --by NAME");
  if (plainly(entry.who).empty())
    throw BadInput(
        fmt::format("sheet {} does not say who computed it, so that a second person cannot be told from the "
                    "first\n  keep sheets with --by NAME",
                    number));
  if (plainly(entry.who) == plainly(by))
    throw BadInput(fmt::format(
        "sheet {} was computed by {}: a second person signs it\n  ask somebody else to look at it", number, entry.who));
  return entry;
}

std::string sign_words(const Verdict& verdict, std::int64_t sheet, std::int64_t entry, const std::string& who) {
  std::string words;
  for (const auto& line : verdict.about) words += line + "\n";
  for (const auto& what : verdict.not_compared) words += "not compared: " + what + "\n";
  for (const auto& difference : verdict.differences) words += "DIFFERS  " + difference + "\n";
  words +=
      fmt::format("entry {}: sheet {} {} ({} figures and words computed anew), signed by {}\n", entry, sheet,
                  verdict.differences.empty() ? "holds" : "DOES NOT HOLD: do not work by it", verdict.compared, who);
  if (verdict.failing > 0) words += fmt::format("{} of its {} checks FAIL\n", verdict.failing, verdict.checks);
  return words;
}

}  // namespace

Signed sign_sheet(Book& book, const Bench& bench, std::int64_t number, const std::string& by, const book::Moment& at,
                  const std::filesystem::path& recipe) {
  const auto sheet = sheet_to_sign(book, number, by);
  const book::Json payload = book::Json::parse(sheet.payload);
  Verdict verdict = verify_kept(bench, fmt::format("sheet {}", number), payload.at("sheet").dump(), recipe);
  auto entry = book.append({std::string(book::signed_for), at, by,
                            book::Json{{"sheet", number},
                                       {"lots", payload.at("lots")},
                                       {"holds", verdict.differences.empty()},
                                       {"compared", verdict.compared},
                                       {"failing checks", verdict.failing},
                                       {"differences", verdict.differences},
                                       {"not compared", verdict.not_compared}}});
  return {std::move(entry), std::move(verdict)};
}

int book_sign(const BookOptions& options) {
  House house(options.plugins);
  Book book(options.book(), Book::To::write);
  const auto number = number_to_sign(options.what);
  const auto [entered, verdict] =
      sign_sheet(book, house.bench(), number, options.by, book_hour(options), options.recipe);
  book.commit();
  const bool holds = verdict.differences.empty();
  if (options.format == "json")
    put(book::Json{{"entry", entered.number},
                   {"sheet", number},
                   {"holds", holds},
                   {"differences", verdict.differences},
                   {"not compared", verdict.not_compared}}
                .dump(2) +
            "\n",
        {});
  else
    put(sign_words(verdict, number, entered.number, options.by), {});
  return holds ? 0 : 1;
}

}  // namespace vatwright
