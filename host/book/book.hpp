// The cellar book: a file that entries are only ever added to, each chained to the one before by its hash.
#pragma once

#include "host/book/entry.hpp"
#include "host/book/lot_state.hpp"
#include "host/book/sqlite.hpp"

#include <filesystem>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace vatwright::book {

class Index;

// A book as it is at one moment, to be read; or, while nobody else can write, to be added to.
class Book {
 public:
  enum class To : std::uint8_t { read, write };
  // To write: a book that is not there is begun. Throws BadInput: no book, another program's file, a newer book, no
  // leave to write.
  Book(const std::filesystem::path& file, To what);
  Book(const Book&) = delete;
  Book& operator=(const Book&) = delete;
  ~Book();

  const std::filesystem::path& file() const { return file_; }
  const sql::Database& data() const { return *database_; }

  // Throws BadInput, and nothing is entered: see `commit`.
  Entry append(const NewEntry& entry);
  // As another book has it: hash, number and all. Throws InputError where it does not follow on the last one.
  void append_as_it_is(const Entry& entry);
  // On the disk when it returns; before that nothing is. What is not committed never was.
  void commit();

  std::int64_t last() const;  // number of the last entry; 0: there is none
  std::optional<Entry> find(std::int64_t number) const;
  // One that is due. Throws BadInput, naming what there is.
  Entry entry(std::int64_t number) const;
  Json payload(std::int64_t number) const;
  // The entry that stands in place of this one; nothing when it stands.
  std::optional<std::int64_t> corrected_by(std::int64_t number) const;

  // By the hour; `until`, in seconds, is that of the last entry that counts.
  std::optional<LotState> lot(const std::string& name, std::optional<std::int64_t> until = std::nullopt) const;
  // A lot that is due. Throws BadInput with the nearest name.
  LotState known_lot(const std::string& name, std::optional<std::int64_t> until = std::nullopt) const;
  std::vector<std::string> lot_names() const;
  // The hour of the last entry that has to do with it, as it was entered.
  std::optional<std::string> last_hour(const std::string& lot) const;

  void each_entry(const std::function<void(const Entry&)>& visit) const;

 private:
  struct Tail {
    std::int64_t number = 0;
    std::string hash;
  };
  struct Writing;
  void begin();
  const Tail& tail();
  void enter(const Entry& entry, const Json& payload);

  std::filesystem::path file_;
  std::unique_ptr<sql::Database> database_;
  std::unique_ptr<Index> index_;
  std::unique_ptr<Writing> writing_;
  std::optional<Tail> tail_;  // of the chain, once it was asked for: while we write nobody else does
  mutable std::optional<sql::Statement> find_;
  std::unique_ptr<sql::Transaction> transaction_;
};

// In the data folder of the person: $XDG_DATA_HOME or ~/.local/share. Throws BadInput where there is no home.
std::filesystem::path default_file();

// What went wrong with the file, for a person.
[[noreturn]] void refuse(const std::filesystem::path& file, const sql::Trouble& trouble);

}  // namespace vatwright::book
