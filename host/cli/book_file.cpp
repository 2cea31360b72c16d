// The book as a file: where it is, whether it is whole, copies of it.
#include "host/book/check.hpp"
#include "host/cli/book_commands.hpp"
#include "host/cli/output.hpp"
#include "host/yaml/document.hpp"

#include <fmt/format.h>

#include <fstream>

namespace vatwright {
namespace {

using book::Book;

// The same as JSON, or in words.
int say(const BookOptions& options, const book::Json& json, const std::string& words) {
  put(options.format == "json" ? json.dump(2, ' ', false, book::Json::error_handler_t::replace) + "\n" : words, {});
  return 0;
}

}  // namespace

int book_where(const BookOptions& options) {
  const auto file = options.book();
  std::error_code ec;
  const bool there = std::filesystem::exists(file, ec);
  return say(options, {{"book", file.string()}, {"there", there}},
             file.string() + "\n" +
                 (there ? "" : "(not begun yet: 'vatwright book measure' or 'vatwright book keep' begins it)\n"));
}

int book_check(const BookOptions& options) {
  const auto file = options.book();
  std::vector<std::string> found;
  std::int64_t entries = 0;
  std::string hash(book::no_entry);
  try {
    const Book book(file, Book::To::read);
    found = book::faults(book);
    if (found.empty()) {
      entries = book.last();
      if (entries > 0) hash = book.entry(entries).hash;
    }
  } catch (const sql::Trouble& trouble) {
    found.push_back(std::string("the file: ") + trouble.what());
  }
  std::string words;
  for (const auto& fault : found) words += "DAMAGED  " + fault + "\n";
  words += found.empty()
               ? fmt::format("{}: in order: {} entries, each as it was written; the last has the hash {}\n",
                             file.string(), entries, hash)
               : file.string() + ": NOT IN ORDER: take up the last copy of it ('vatwright book copy'), or its export\n";
  say(options,
      {{"book", file.string()}, {"in order", found.empty()}, {"entries", entries}, {"hash", hash}, {"faults", found}},
      words);
  return found.empty() ? 0 : 1;
}

int book_copy(const BookOptions& options) {
  std::error_code ec;
  if (std::filesystem::exists(options.what, ec))
    throw BadInput(options.what + " is there already\n  name a file that is not: a copy is never written over another");
  const Book book(options.book(), Book::To::read);
  book.data().copy_to(options.what);
  const Book copy(options.what, Book::To::read);
  return say(options, {{"copy", options.what}, {"entries", copy.last()}},
             fmt::format("{}: a copy with {} entries\n", options.what, copy.last()));
}

int book_export(const BookOptions& options) {
  refuse_onto(options.out, {options.book()});
  const Book book(options.book(), Book::To::read);
  Output output(options.out);
  std::string block;
  constexpr std::size_t large = 1U << 20U;
  book.each_entry([&](const book::Entry& entry) {
    block += book::export_line(entry) + "\n";
    if (block.size() < large) return;
    output.write(block);
    block.clear();
  });
  output.write(block);
  output.finish();
  return 0;
}

int book_import(const BookOptions& options) {
  std::ifstream in(options.what, std::ios::binary);
  if (!in) throw BadInput(options.what + " cannot be read\n  look at the name, and at the permissions of the file");
  Book book(options.book(), Book::To::write);
  const auto before = book.last();
  std::string line;
  std::int64_t number = 0;
  while (std::getline(in, line)) {
    ++number;
    if (line.empty()) continue;
    try {
      const auto entry = book::entry_of(line);
      // What the book has already is passed over, so that a later export brings what is new.
      if (const auto there = book.find(entry.number);
          there && there->hash == entry.hash && entry.hash == book::hash_of(entry))
        continue;
      book.append_as_it_is(entry);
    } catch (const InputError& error) {
      throw BadInput(
          fmt::format("{}:{}: {}; nothing was imported\n  {}", options.what, number, error.what(), error.hint()));
    }
  }
  const auto after = book.last();
  const std::string hash = after > 0 ? book.entry(after).hash : std::string(book::no_entry);
  book.commit();
  return say(options,
             {{"book", options.book().string()}, {"imported", after - before}, {"entries", after}, {"hash", hash}},
             fmt::format("{}: {} entries imported, {} in all; the last has the hash {}\n", options.book().string(),
                         after - before, after, hash));
}

}  // namespace vatwright
