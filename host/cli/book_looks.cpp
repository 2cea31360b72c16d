// What the book says: lots, one lot, its history.
#include "host/book/learn.hpp"
#include "host/book/lot_page.hpp"
#include "host/book/register.hpp"
#include "host/book/views.hpp"
#include "host/cli/book_commands.hpp"
#include "host/cli/house.hpp"
#include "host/cli/output.hpp"
#include "host/yaml/document.hpp"

namespace vatwright {
namespace {

using book::Book;

book::Moment asked_hour(const BookOptions& options) {
  try {
    return options.at.empty() ? book::now() : book::moment_of(options.at, book::Day::ends);
  } catch (const InputError& error) {
    throw BadInput(std::string("--at: ") + error.what() + "\n  " + error.hint());
  }
}

book::Hour until(const BookOptions& options) {
  if (options.at.empty()) return std::nullopt;
  return asked_hour(options).seconds;
}

// What is entered for a later hour, such as in a demo, counts where no hour is asked for.
std::string as_of_words(const Book& book, const BookOptions& options) {
  const auto asked = asked_hour(options);
  if (options.at.empty())
    if (const auto last = book.last_hour(options.what); last && book::seconds_of(*last) > asked.seconds)
      return book::short_hour(*last);
  return book::short_hour(asked.written);
}

int show_text(const BookOptions& options, const std::string& text) {
  if (!options.out.empty()) refuse_onto(options.out, {options.book()});
  put(text, options.out);
  return 0;
}

int show_json(const BookOptions& options, const book::Json& json) {
  return show_text(options, json.dump(2, ' ', false, book::Json::error_handler_t::replace) + "\n");
}

std::optional<std::int64_t> day_of(const std::string& text, book::Day day, const std::string& option) {
  if (text.empty()) return std::nullopt;
  try {
    return book::moment_of(text, day).seconds;
  } catch (const InputError& error) {
    throw BadInput(option + ": " + error.what() + "\n  " + error.hint());
  }
}

}  // namespace

int book_lots(const BookOptions& options) {
  const Book book(options.book(), Book::To::read);
  if (options.format == "json") return show_json(options, book::lots_json(book, until(options)));
  return show_text(options, book::lots_text(book, until(options), terminal_style()));
}

int book_lot(const BookOptions& options) {
  const Book book(options.book(), Book::To::read);
  const auto lot = book.known_lot(options.what, until(options));
  if (options.format == "json") return show_json(options, book::lot_json(book, lot));
  const auto as_of = as_of_words(book, options);
  if (options.format == "html") return show_text(options, book::lot_page(book, lot, as_of, until(options)));
  return show_text(options, book::lot_text(book, lot, as_of, terminal_style()));
}

int book_history(const BookOptions& options) {
  const Book book(options.book(), Book::To::read);
  book.known_lot(options.what);
  if (options.format == "json") return show_json(options, book::history_json(book, options.what));
  return show_text(options, book::history_text(book, options.what, terminal_style()));
}

int book_register(const BookOptions& options) {
  const auto from = day_of(options.from, book::Day::begins, "--from"), to = day_of(options.to, book::Day::ends, "--to");
  const House house(options.plugins);
  const Book book(options.book(), Book::To::read);
  const auto all = book::make_register(book, house.rules_folder.parent_path() / "registers.yaml",
                                       options.rules.empty() ? "EU" : options.rules, from, to);
  if (options.format == "json") return show_json(options, book::register_json(all));
  if (options.format == "html") return show_text(options, book::register_html(all, options.book().string()));
  if (options.format == "csv") return show_text(options, book::register_csv(all));
  return show_text(options, book::register_text(all, terminal_style()));
}

int book_stock(const BookOptions& options) {
  const Book book(options.book(), Book::To::read);
  if (options.format == "json") return show_json(options, book::stock_json(book));
  return show_text(options, book::stock_text(book, terminal_style()));
}

int book_learn(const BookOptions& options) {
  const Book book(options.book(), Book::To::read);
  const auto all = book::lessons(book);
  if (options.format == "json") return show_json(options, book::lessons_json(all));
  if (options.format == "html") return show_text(options, book::lessons_html(all, options.book().string()));
  return show_text(options, book::lessons_text(all, terminal_style()));
}

}  // namespace vatwright
