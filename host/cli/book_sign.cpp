// A second person signs a sheet of the book: it is computed anew and compared before the name is entered.
#include "host/cli/book_commands.hpp"
#include "host/cli/house.hpp"
#include "host/cli/output.hpp"
#include "host/cli/verify.hpp"
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
  for (const unsigned char c : name)
    if (std::isspace(c) == 0) out += static_cast<char>(std::tolower(c));
  return out;
}

book::Entry sheet_to_sign(const Book& book, const BookOptions& options) {
  std::int64_t number = 0;
  const auto* end = options.what.data() + options.what.size();
  const auto read = std::from_chars(options.what.data(), end, number);
  if (read.ec != std::errc() || read.ptr != end)
    throw BadInput("expected the number of a sheet, read '" + options.what +
                   "'\n  such as 'vatwright book sign 12 --by NAME'");
  auto entry = book.entry(number);
  if (entry.kind != book::kept)
    throw BadInput(
        fmt::format("entry {} is no sheet: it is {}\n  'vatwright book history LOT' shows the sheets of a lot", number,
                    entry.kind));
  if (plainly(options.by).empty()) throw BadInput("nobody signs\n  say who does: --by NAME");
  if (plainly(entry.who).empty())
    throw BadInput(
        fmt::format("sheet {} does not say who computed it, so that a second person cannot be told from the "
                    "first\n  keep sheets with --by NAME",
                    number));
  if (plainly(entry.who) == plainly(options.by))
    throw BadInput(fmt::format(
        "sheet {} was computed by {}: a second person signs it\n  ask somebody else to look at it", number, entry.who));
  return entry;
}

book::Moment signing_hour(const BookOptions& options) {
  if (options.at.empty()) return book::now();
  try {
    return book::moment_of(options.at, book::Day::begins);
  } catch (const InputError& error) {
    throw BadInput(std::string("--at: ") + error.what() + "\n  " + error.hint());
  }
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

int book_sign(const BookOptions& options) {
  House house(options.plugins);
  Book book(options.book(), Book::To::write);
  const auto sheet = sheet_to_sign(book, options);
  const book::Json payload = book::Json::parse(sheet.payload);
  const Verdict verdict = verify_text(house.bench(), fmt::format("sheet {}", sheet.number), payload.at("sheet").dump());
  const bool holds = verdict.differences.empty();
  const auto entered = book.append({std::string(book::signed_for), signing_hour(options), options.by,
                                    book::Json{{"sheet", sheet.number},
                                               {"lots", payload.at("lots")},
                                               {"holds", holds},
                                               {"compared", verdict.compared},
                                               {"failing checks", verdict.failing},
                                               {"differences", verdict.differences},
                                               {"not compared", verdict.not_compared}}});
  book.commit();
  if (options.format == "json")
    put(
        book::Json{
            {"entry", entered.number}, {"sheet", sheet.number}, {"holds", holds}, {"differences", verdict.differences}}
                .dump(2) +
            "\n",
        {});
  else
    put(sign_words(verdict, sheet.number, entered.number, options.by), {});
  return holds ? 0 : 1;
}

}  // namespace vatwright
