// A small face over the C library of SQLite: a connection, prepared statements, transactions. The only user of it.
// Nothing is ever put into the text of a statement: values are bound.
#pragma once

#include <cstdint>
#include <filesystem>
#include <memory>
#include <stdexcept>
#include <string>
#include <string_view>

struct sqlite3;
struct sqlite3_stmt;

namespace vatwright::sql {

// What SQLite answered; `code` is its primary result code.
class Trouble : public std::runtime_error {
 public:
  Trouble(int result, const std::string& what) : std::runtime_error(what), code(result) {}
  int code;
};
bool is_busy(const Trouble& trouble);
bool is_full(const Trouble& trouble);
bool is_read_only(const Trouble& trouble);
bool cannot_open(const Trouble& trouble);
bool is_damaged(const Trouble& trouble);  // or no database at all

class Statement {
 public:
  Statement(sqlite3* database, std::string_view sql);
  Statement(Statement&&) = default;
  Statement& operator=(Statement&&) = default;
  Statement(const Statement&) = delete;
  Statement& operator=(const Statement&) = delete;
  ~Statement() = default;

  // Starts it anew with these values, in the order of its question marks.
  template <class... Values>
  Statement& with(const Values&... values) {
    restart();
    int at = 0;
    (bind(++at, values), ...);
    return *this;
  }
  // True: there is a row to read.
  bool step();
  // Runs one that gives no rows.
  void run() {
    while (step()) {
    }
  }

  std::int64_t number(int column) const;
  double real(int column) const;
  std::string text(int column) const;
  bool is_null(int column) const;

 private:
  void restart();
  void bind(int at, std::int64_t value);
  void bind(int at, int value) { bind(at, static_cast<std::int64_t>(value)); }
  void bind(int at, double value);
  void bind(int at, std::string_view value);
  void bind(int at, const std::string& value) { bind(at, std::string_view(value)); }
  void bind(int at, std::nullptr_t);

  struct Finish {
    void operator()(sqlite3_stmt* statement) const;
  };
  sqlite3* database_;
  std::unique_ptr<sqlite3_stmt, Finish> statement_;
};

class Database {
 public:
  enum class Mode : std::uint8_t {
    read,
    read_unchanging,  // nobody can write to it: not even the files beside it that readers share
    write,            // it is made when it is not there
    in_memory,        // nowhere else; the file is not looked at
  };
  Database(const std::filesystem::path& file, Mode mode);

  Statement prepare(std::string_view sql) const { return {database_.get(), sql}; }
  // Statements of our own, without values.
  void execute(const char* sql) const;
  bool in_transaction() const;
  // A copy, whole and of one moment, while others read and write.
  void copy_to(const std::filesystem::path& file) const;

 private:
  struct Close {
    void operator()(sqlite3* database) const;
  };
  std::unique_ptr<sqlite3, Close> database_;
};

// All or nothing. What is not committed is undone.
class Transaction {
 public:
  enum class For : std::uint8_t { reading, writing };
  Transaction(const Database& database, For what);
  Transaction(const Transaction&) = delete;
  Transaction& operator=(const Transaction&) = delete;
  ~Transaction();
  void commit();

 private:
  const Database& database_;
};

}  // namespace vatwright::sql
