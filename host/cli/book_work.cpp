// What is entered into the book: sheets, work that was done, readings, slips.
#include "host/book/keep.hpp"
#include "host/book/measure.hpp"
#include "host/book/work.hpp"
#include "host/cli/book_commands.hpp"
#include "host/cli/output.hpp"
#include "host/yaml/document.hpp"

#include <fmt/format.h>

#include <iostream>

namespace vatwright {
namespace {

using book::Book;
using book::Moment;
using book::NewEntry;

constexpr std::size_t largest_sheet = 16U << 20U;

// A correction is of the hour of what it corrects, and by whoever makes it.
Moment hour_of(const BookOptions& options, const Book& book) {
  if (!options.at.empty() || options.corrects == 0) return book_hour(options);
  const auto slip = book.entry(options.corrects);
  return {slip.at, book::seconds_of(slip.at)};
}

void refuse_corrected(const Book& book, std::int64_t number) {
  if (number == 0) return;
  const auto slip = book.entry(number);
  if (slip.kind == book::withdrawn)
    throw BadInput(fmt::format("entry {} withdraws another\n  enter anew what it withdrew", number));
  if (const auto other = book.corrected_by(number))
    throw BadInput(fmt::format("entry {} no longer stands: entry {} took its place\n  name that one", number, *other));
  if (slip.kind != book::kept) return;
  auto done =
      book.data().prepare("SELECT done_by FROM work WHERE sheet = ? AND done_by IS NOT NULL ORDER BY done_by LIMIT 1");
  if (done.with(number).step())
    throw BadInput(fmt::format("work of sheet {} was done: entry {}\n  withdraw that first, if it was not", number,
                               done.number(0)));
}

book::Entry enter(Book& book, NewEntry entry, const BookOptions& options, const Moment& at) {
  entry.at = at;
  entry.who = options.by;
  if (options.corrects != 0) entry.payload["corrects"] = options.corrects;
  return book.append(entry);
}

int answer(const BookOptions& options, const std::vector<book::Entry>& entries, const std::string& words) {
  if (options.format == "text") {
    put(words, {});
    return 0;
  }
  book::Json all = book::Json::array();
  for (const auto& e : entries)
    all.push_back({{"entry", e.number},
                   {"kind", e.kind},
                   {"at", e.at},
                   {"by", e.who},
                   {"hash", e.hash},
                   {"payload", book::Json::parse(e.payload)}});
  put(book::Json{{"entered", all}}.dump(2, ' ', false, book::Json::error_handler_t::replace) + "\n", {});
  return 0;
}

// What was planned of it, as a list to tick off.
std::string work_words(const book::Entry& entry) {
  std::string words;
  const book::Json payload = book::Json::parse(entry.payload);
  for (const auto& work : payload.at("work")) {
    const auto part = work.at("part").get<std::int64_t>();
    words += fmt::format("  [ ] {}.{}{}  {}\n", entry.number, work.at("step").get<std::int64_t>(),
                         part > 0 ? fmt::format(".{}", part) : "", work.at("what").get<std::string>());
    for (const auto& caution : book::cautions_of(payload.at("sheet"), work.at("step").get<std::int64_t>(), part))
      words += "      ! " + caution + "\n";
  }
  return words.empty() ? "  it asks for nothing to be done\n"
                       : words + fmt::format("when it is done: vatwright book done {}\n", entry.number);
}

book::Entry kept_sheet(const BookOptions& options, const std::string& name, const std::string& sheet) {
  Book book(options.book(), Book::To::write);
  const auto at = book_hour(options);
  auto entry = enter(book, book::keep(book, name, sheet, at.seconds), options, at);
  book.commit();
  return entry;
}

// What the lot is to be measured for again.
std::string forecasts_of(const book::Json& payload) {
  std::string words;
  for (const book::Json members = payload.value("leaves", book::Json::object());
       const auto& [lot, leaves] : members.items()) {
    std::string facts;
    for (const auto& [fact, left] : leaves.items())
      if (left.is_object() && left.value("from", "") == book::from_forecast)
        facts += (facts.empty() ? "" : ", ") + fact;
    if (!facts.empty()) words += fmt::format("  of {} only forecast now, to be measured: {}\n", lot, facts);
  }
  return words;
}

}  // namespace

Moment book_hour(const BookOptions& options) {
  if (options.at.empty()) return book::now();
  try {
    return book::moment_of(options.at, book::Day::begins);
  } catch (const InputError& error) {
    throw BadInput(std::string("--at: ") + error.what() + "\n  " + error.hint());
  }
}

book::BookLots book_lots_of(const BookOptions& options) {
  // Where nobody has a home, a recipe that wants no book runs all the same.
  try {
    return {options.book(), book_hour(options)};
  } catch (const BadInput&) {
    if (!options.at.empty()) throw;
    return {"cellar.book", book::now()};
  }
}

void keep_sheet(const BookOptions& options, const std::string& name, const std::string& sheet) try {
  const auto entry = kept_sheet(options, name, sheet);
  std::cerr << "kept in the book as sheet " << entry.number << ":\n" << work_words(entry);
} catch (const sql::Trouble& trouble) {
  book::refuse(options.book(), trouble);
}

int book_keep(const BookOptions& options) {
  const auto entry = kept_sheet(options, options.what, read_file(options.what, largest_sheet));
  return answer(options, {entry}, fmt::format("kept as sheet {}:\n{}", entry.number, work_words(entry)));
}

int book_done(const BookOptions& options) {
  Book book(options.book(), Book::To::write);
  const auto at = hour_of(options, book);
  std::vector<book::Entry> entries;
  std::string words;
  if (options.corrects != 0) {
    refuse_corrected(book, options.corrects);
    // The slip is taken out first, so that its work is open again.
    NewEntry slip{
        std::string(book::withdrawn), at, options.by, {{"corrects", options.corrects}, {"why", "entered anew"}}};
    entries.push_back(book.append(slip));
  }
  BookOptions plain = options;
  plain.corrects = 0;
  for (auto& made : book::report_done(book, {options.what, options.weighed, options.batches}, at.seconds)) {
    entries.push_back(enter(book, std::move(made), plain, at));
    const book::Json payload = book::Json::parse(entries.back().payload);
    words += fmt::format("entry {}: {}.{} done: {}{}\n", entries.back().number, payload.at("sheet").get<std::int64_t>(),
                         payload.at("step").get<std::int64_t>(), payload.at("calculation").get<std::string>(),
                         payload.value("lot", "").empty() ? "" : " on lot " + payload.value("lot", ""));
    words += forecasts_of(payload);
  }
  book.commit();
  return answer(options, entries, words);
}

int book_measure(const BookOptions& options) {
  Book book(options.book(), Book::To::write);
  refuse_corrected(book, options.corrects);
  const auto at = hour_of(options, book);
  const bool known = book.lot(options.what).has_value();
  const auto entry = enter(book, book::measure(book, options.what, options.readings, options.sample), options, at);
  book.commit();
  return answer(
      options, {entry},
      fmt::format("entry {}: {} of lot {}{}\n", entry.number,
                  options.readings.size() == 1 ? "a reading" : fmt::format("{} readings", options.readings.size()),
                  options.what, known ? "" : ", which is new in the book"));
}

int book_withdraw(const BookOptions& options) {
  Book book(options.book(), Book::To::write);
  refuse_corrected(book, options.corrects);
  const auto at = book_hour(options);
  book::check_text("why", options.why);
  const auto entry = enter(book, {std::string(book::withdrawn), {}, {}, {{"why", options.why}}}, options, at);
  book.commit();
  return answer(options, {entry}, fmt::format("entry {}: entry {} counts no more\n", entry.number, options.corrects));
}

}  // namespace vatwright
