#include "host/book/sqlite.hpp"

#include <sqlite3.h>

namespace vatwright::sql {
namespace {

constexpr int most_wait = 20'000;  // milliseconds, for another who writes
constexpr int primary = 0xFF;      // the rest of a result code says more of it

[[noreturn]] void fail(sqlite3* database, int result) {
  throw Trouble(result & primary, database == nullptr ? sqlite3_errstr(result) : sqlite3_errmsg(database));
}

void expect(sqlite3* database, int result) {
  if (result != SQLITE_OK) fail(database, result);
}

// A path as a URI that asks for no locks: each byte that could mean something in one is written in hexadecimal.
std::string unchanging_uri(const std::string& path) {
  constexpr std::string_view plain = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-._~/";
  constexpr char digits[] = "0123456789ABCDEF";
  constexpr unsigned low = 0xF;
  std::string uri = "file://";
  for (const char c : path) {
    const auto byte = static_cast<unsigned char>(c);
    if (plain.find(c) != std::string_view::npos)
      uri += c;
    else
      uri.append("%").append(1, digits[byte >> 4U]).append(1, digits[byte & low]);
  }
  return uri + "?immutable=1";
}

}  // namespace

bool is_busy(const Trouble& trouble) { return trouble.code == SQLITE_BUSY || trouble.code == SQLITE_LOCKED; }
bool is_full(const Trouble& trouble) { return trouble.code == SQLITE_FULL || trouble.code == SQLITE_IOERR; }
bool is_read_only(const Trouble& trouble) {
  return trouble.code == SQLITE_READONLY || trouble.code == SQLITE_PERM || trouble.code == SQLITE_AUTH;
}
bool cannot_open(const Trouble& trouble) { return trouble.code == SQLITE_CANTOPEN; }
bool is_damaged(const Trouble& trouble) {
  return trouble.code == SQLITE_CORRUPT || trouble.code == SQLITE_NOTADB || trouble.code == SQLITE_ERROR ||
         trouble.code == SQLITE_CONSTRAINT || trouble.code == SQLITE_FORMAT || trouble.code == SQLITE_SCHEMA;
}

Statement::Statement(sqlite3* database, std::string_view sql) : database_(database) {
  sqlite3_stmt* made = nullptr;
  expect(database, sqlite3_prepare_v2(database, sql.data(), static_cast<int>(sql.size()), &made, nullptr));
  statement_.reset(made);
}

void Statement::Finish::operator()(sqlite3_stmt* statement) const { sqlite3_finalize(statement); }

void Statement::restart() { sqlite3_reset(statement_.get()); }

bool Statement::step() {
  const int result = sqlite3_step(statement_.get());
  if (result == SQLITE_ROW) return true;
  if (result != SQLITE_DONE) fail(database_, result);
  return false;
}

std::int64_t Statement::number(int column) const { return sqlite3_column_int64(statement_.get(), column); }
double Statement::real(int column) const { return sqlite3_column_double(statement_.get(), column); }
bool Statement::is_null(int column) const { return sqlite3_column_type(statement_.get(), column) == SQLITE_NULL; }
std::string Statement::text(int column) const {
  const unsigned char* bytes = sqlite3_column_text(statement_.get(), column);
  if (bytes == nullptr) return {};
  return {reinterpret_cast<const char*>(bytes),
          static_cast<std::size_t>(sqlite3_column_bytes(statement_.get(), column))};
}

void Statement::bind(int at, std::int64_t value) { expect(database_, sqlite3_bind_int64(statement_.get(), at, value)); }
void Statement::bind(int at, double value) { expect(database_, sqlite3_bind_double(statement_.get(), at, value)); }
void Statement::bind(int at, std::string_view value) {
  expect(database_,
         sqlite3_bind_text64(statement_.get(), at, value.data(), value.size(), SQLITE_TRANSIENT, SQLITE_UTF8));
}
void Statement::bind(int at, std::nullptr_t) { expect(database_, sqlite3_bind_null(statement_.get(), at)); }

Database::Database(const std::filesystem::path& file, Mode mode) {
  // An absolute path begins with '/', so that no name means anything else to SQLite.
  std::string name = mode == Mode::in_memory ? ":memory:" : std::filesystem::absolute(file).string();
  const bool writes = mode == Mode::write || mode == Mode::in_memory;
  int flags = writes ? SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE : SQLITE_OPEN_READONLY;
  if (mode == Mode::read_unchanging) {
    name = unchanging_uri(name);
    flags |= SQLITE_OPEN_URI;
  }
  sqlite3* made = nullptr;
  const int result = sqlite3_open_v2(name.c_str(), &made, flags, nullptr);
  database_.reset(made);
  expect(made, result);
  expect(made, sqlite3_busy_timeout(made, most_wait));
  // A file from elsewhere is data: it runs nothing of its own, and nobody writes past the tables.
  expect(made, sqlite3_db_config(made, SQLITE_DBCONFIG_DEFENSIVE, 1, nullptr));
  expect(made, sqlite3_db_config(made, SQLITE_DBCONFIG_TRUSTED_SCHEMA, 0, nullptr));
  execute("PRAGMA foreign_keys=ON; PRAGMA cell_size_check=ON");
}

void Database::Close::operator()(sqlite3* database) const { sqlite3_close_v2(database); }

void Database::execute(const char* sql) const {
  expect(database_.get(), sqlite3_exec(database_.get(), sql, nullptr, nullptr, nullptr));
}

bool Database::in_transaction() const { return sqlite3_get_autocommit(database_.get()) == 0; }

void Database::copy_to(const std::filesystem::path& file) const {
  const Database target(file, Mode::write);
  sqlite3_backup* backup = sqlite3_backup_init(target.database_.get(), "main", database_.get(), "main");
  if (backup == nullptr) fail(target.database_.get(), sqlite3_errcode(target.database_.get()));
  const int result = sqlite3_backup_step(backup, -1);
  sqlite3_backup_finish(backup);
  if (result != SQLITE_DONE) fail(target.database_.get(), result);
}

Transaction::Transaction(const Database& database, For what) : database_(database) {
  // Who is to write says so at once: two who read first and wrote later would wait for each other.
  database_.execute(what == For::writing ? "BEGIN IMMEDIATE" : "BEGIN");
}

Transaction::~Transaction() {
  if (!database_.in_transaction()) return;
  try {
    database_.execute("ROLLBACK");
  } catch (const Trouble&) {  // SQLite has undone it already
  }
}

void Transaction::commit() { database_.execute("COMMIT"); }

}  // namespace vatwright::sql
