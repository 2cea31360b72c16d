#include "host/cli/page_book.hpp"

#include "host/book/keep.hpp"
#include "host/book/lot_page.hpp"
#include "host/book/measure.hpp"
#include "host/book/work.hpp"
#include "host/cli/book_sign.hpp"
#include "host/yaml/document.hpp"

#include <fmt/format.h>

namespace vatwright {
namespace {

using book::Book;

// What SQLite says goes to the person in the words of the book.
template <class Look>
auto in_book(const std::filesystem::path& file, Book::To what, Look look) {
  try {
    Book book(file, what);
    return look(book);
  } catch (const sql::Trouble& trouble) {
    book::refuse(file, trouble);
  }
}

book::Moment hour_said(const PageBook::Said& said) {
  if (said.at.empty()) return book::now();
  try {
    return book::moment_of(said.at, book::Day::begins);
  } catch (const InputError& error) {
    throw BadInput(std::string("when: ") + error.what() + "\n  " + error.hint());
  }
}

std::int64_t entered_as(Book& book, book::NewEntry entry, const PageBook::Said& said, const book::Moment& at) {
  entry.at = at;
  entry.who = said.by;
  return book.append(entry).number;
}

}  // namespace

BookForPage::BookForPage(std::filesystem::path file, Bench bench)
    : file_(std::move(file)), bench_(std::move(bench)), source_(file_) {}

bool BookForPage::begun() const {
  std::error_code ec;
  return std::filesystem::exists(file_, ec);
}

std::vector<PageBook::Lot> BookForPage::lots() const {
  if (!begun()) return {};
  return in_book(file_, Book::To::read, [](const Book& book) {
    std::vector<Lot> all;
    for (auto& line : book::lot_lines(book, std::nullopt))
      all.push_back({std::move(line.lot), std::move(line.figures), line.open.size(), line.empty});
    return all;
  });
}

bool BookForPage::has(const std::string& lot) const {
  return begun() && in_book(file_, Book::To::read, [&](const Book& book) { return book.lot(lot).has_value(); });
}

std::vector<PageBook::OpenWork> BookForPage::open_work(const std::string& lot) const {
  return in_book(file_, Book::To::read, [&](const Book& book) {
    std::vector<OpenWork> all;
    for (auto& work : book::open_work(book, lot)) {
      const bool weighs = std::count(work.id.begin(), work.id.end(), '.') == 2;  // an addition of a step
      all.push_back({std::move(work.id), std::move(work.what), weighs, std::move(work.cautions)});
    }
    return all;
  });
}

std::vector<PageBook::KeptSheet> BookForPage::sheets(const std::string& lot) const {
  return in_book(file_, Book::To::read, [&](const Book& book) {
    std::vector<KeptSheet> all;
    for (auto& sheet : book::kept_sheets(book, lot))
      all.push_back({sheet.number, std::move(sheet.title), std::move(sheet.by), std::move(sheet.signed_by)});
    return all;
  });
}

void BookForPage::show(const std::string& lot, Markup& page) const {
  in_book(file_, Book::To::read,
          [&](const Book& book) { book::write_lot(page, book, book.known_lot(lot), std::nullopt); });
}

std::string BookForPage::entry_words(std::int64_t number) const {
  if (!begun()) return {};
  return in_book(file_, Book::To::read, [&](const Book& book) {
    const auto entry = book.find(number);
    return entry ? book::event_words(*entry, {}) : std::string();
  });
}

PageBook::Entered BookForPage::keep(const std::string& sheet_json, const Said& said) const {
  return in_book(file_, Book::To::write, [&](Book& book) {
    const auto at = hour_said(said);
    auto made = book::keep(book, "the sheet", sheet_json, at.seconds);
    const auto lots = made.payload.at("lots").get<std::vector<std::string>>();
    Entered entered{entered_as(book, std::move(made), said, at), lots.empty() ? std::string() : lots.front()};
    book.commit();
    return entered;
  });
}

PageBook::Entered BookForPage::done(const std::string& id, const std::string& weighed, const std::string& batch,
                                    const Said& said) const {
  return in_book(file_, Book::To::write, [&](Book& book) {
    const auto at = hour_said(said);
    book::Report report{id, {}, {}};
    if (!weighed.empty()) report.weighed.push_back(weighed);
    if (!batch.empty()) report.batches.push_back(batch);
    Entered entered;
    for (auto& made : book::report_done(book, report, at.seconds)) {
      entered.lot = made.payload.value("lot", "");
      entered.entry = entered_as(book, std::move(made), said, at);
    }
    book.commit();
    return entered;
  });
}

PageBook::Entered BookForPage::measure(const std::string& lot, const std::vector<std::string>& readings,
                                       const std::string& sample, const Said& said) const {
  return in_book(file_, Book::To::write, [&](Book& book) {
    const auto at = hour_said(said);
    Entered entered{entered_as(book, book::measure(book, lot, readings, sample), said, at), lot};
    book.commit();
    return entered;
  });
}

PageBook::Entered BookForPage::sign(std::int64_t sheet, const Said& said) const {
  return in_book(file_, Book::To::write, [&](Book& book) {
    const auto done = sign_sheet(book, bench_, sheet, said.by, hour_said(said), {});
    book.commit();
    return Entered{done.entry.number, {}};
  });
}

std::unique_ptr<const BookForPage> book_for_page(const BookOptions& options, const Bench& bench) try {
  return std::make_unique<const BookForPage>(options.book(), bench);
} catch (const BadInput&) {
  return nullptr;
}

}  // namespace vatwright
