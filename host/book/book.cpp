#include "host/book/book.hpp"

#include "host/book/index.hpp"
#include "host/book/rebuild.hpp"
#include "host/book/schema.hpp"
#include "host/files/version.hpp"
#include "host/yaml/document.hpp"
#include "units/nearest.hpp"

#include <fmt/format.h>

#include <unistd.h>

#include <chrono>
#include <cstdlib>
#include <thread>

namespace vatwright::book {
namespace {

namespace fs = std::filesystem;
using sql::Database;
using sql::Transaction;
using sql::Trouble;

constexpr char entry_columns[] = "SELECT number, kind, at, entered, who, payload, previous, hash FROM entry";

std::int64_t asked(const Database& database, const char* what) {
  auto statement = database.prepare(what);
  return statement.step() ? statement.number(0) : 0;
}

// Whoever begins a book needs it alone for a moment; another may be beginning it too.
void keep_a_log(const Database& database) {
  constexpr int tries = 200;
  for (int i = 1;; ++i) try {
      database.execute("PRAGMA journal_mode=WAL");
      break;
    } catch (const Trouble& trouble) {
      if (!is_busy(trouble) || i == tries) throw;
      std::this_thread::sleep_for(std::chrono::milliseconds(10));
    }
  // Each commit is on the disk before it is answered.
  database.execute("PRAGMA synchronous=FULL");
}

std::unique_ptr<Database> read_now(const fs::path& file, Database::Mode mode) {
  auto database = std::make_unique<Database>(file, mode);
  asked(*database, "PRAGMA user_version");
  asked(*database, "SELECT count(*) FROM sqlite_schema");
  return database;
}

// Readers share a file beside the book. Where none can be made nobody can write either; where it can, another program
// may just be taking it away.
std::unique_ptr<Database> open_to_read(const fs::path& file) {
  constexpr int tries = 200;
  for (int i = 1;; ++i) try {
      return read_now(file, Database::Mode::read);
    } catch (const Trouble& trouble) {
      if (!cannot_open(trouble) && !is_read_only(trouble)) throw;
      if (::access(fs::absolute(file).parent_path().c_str(), W_OK) != 0)
        return read_now(file, Database::Mode::read_unchanging);
      if (i == tries) throw;
      std::this_thread::sleep_for(std::chrono::milliseconds(10));
    }
}

void look_whose(const Database& database, const fs::path& file) {
  const auto whose = asked(database, "PRAGMA application_id"), version = asked(database, "PRAGMA user_version");
  const bool empty = asked(database, "SELECT count(*) FROM sqlite_schema") == 0;
  if (empty && version == 0) return;
  if (whose != application)
    throw BadInput(file.string() +
                   ": this is a file of another program, not a cellar book\n  look at the name after --book");
  if (version > newest_version)
    throw BadInput(
        fmt::format("{}: this book was written by a newer vatwright (its form is version {}, this program, "
                    "{}, reads up to version {})\n  open it with the newer program",
                    file.string(), version, program_version, newest_version));
}

}  // namespace

// What each entry runs, prepared once.
struct Book::Writing {
  explicit Writing(const Database& database)
      : enter(database.prepare("INSERT INTO entry(number, kind, at, entered, who, payload, previous, hash) "
                               "VALUES(?, ?, ?, ?, ?, ?, ?, ?)")),
        happen(database.prepare("INSERT INTO happened(entry, moment) VALUES(?, ?)")),
        later(database.prepare("SELECT 1 FROM happened WHERE moment > ? LIMIT 1")) {}
  sql::Statement enter, happen, later;
};

void refuse(const fs::path& file, const Trouble& trouble) {
  const auto say = [&](const std::string& what, const std::string& hint) {
    throw BadInput(file.string() + ": " + what + " (" + trouble.what() + ")\n  " + hint);
  };
  if (is_busy(trouble)) say("another program has held the book for too long", "try again when it has finished");
  if (is_full(trouble))
    say("the book cannot be written: the disk is full or failing; nothing was entered", "make room, and try again");
  if (is_read_only(trouble))
    say("the book may only be read here; nothing was entered", "look at the permissions of the file and of its folder");
  if (cannot_open(trouble)) say("the book cannot be opened", "look at the name after --book, and at its folder");
  say("the book is damaged, or is none",
      "look with 'vatwright book check'; take up the last copy ('vatwright book copy')");
  std::abort();
}

Book::Book(const fs::path& file, To what) : file_(file) {
  std::error_code ec;
  const bool there = fs::exists(file, ec);
  if (what == To::read && !there)
    throw BadInput(file.string() +
                   ": there is no book here yet\n  'vatwright book measure' or 'vatwright book keep' begins one; name "
                   "another with --book");
  if (fs::is_directory(file, ec)) throw BadInput(file.string() + ": this is a folder, not a book\n  name the file");
  try {
    if (what == To::write) {
      fs::create_directories(fs::absolute(file).parent_path(), ec);
      database_ = std::make_unique<Database>(file, Database::Mode::write);
      look_whose(*database_, file);
      begin();
      return;
    }
    database_ = open_to_read(file);
    look_whose(*database_, file);
    if (asked(*database_, "PRAGMA user_version") < newest_version) {
      Book(file, To::write).commit();
      database_ = open_to_read(file);
    }
    transaction_ = std::make_unique<Transaction>(*database_, Transaction::For::reading);
  } catch (const Trouble& trouble) {
    refuse(file, trouble);
  }
}

void Book::begin() {
  keep_a_log(*database_);
  transaction_ = std::make_unique<Transaction>(*database_, Transaction::For::writing);
  look_whose(*database_, file_);
  const auto version = asked(*database_, "PRAGMA user_version");
  const bool older = version < newest_version, is_new = version == 0;
  if (older) move_on(*database_, version);
  index_ = std::make_unique<Index>(*database_);
  writing_ = std::make_unique<Writing>(*database_);
  if (older && !is_new) make_anew(*database_, *index_, from_the_first);
}

Book::~Book() = default;

void Book::commit() { transaction_->commit(); }

std::int64_t Book::last() const { return asked(*database_, "SELECT ifnull(max(number), 0) FROM entry"); }

std::optional<Entry> Book::find(std::int64_t number) const {
  if (!find_) find_.emplace(database_->prepare(std::string(entry_columns) + " WHERE number = ?"));
  if (!find_->with(number).step()) return std::nullopt;
  auto found = entry_at(*find_);
  find_->step();
  return found;
}

const Book::Tail& Book::tail() {
  if (!tail_) {
    const auto number = last();
    tail_ = Tail{number, number == 0 ? std::string(no_entry) : entry(number).hash};
  }
  return *tail_;
}

Entry Book::entry(std::int64_t number) const {
  if (auto found = find(number)) return *found;
  throw BadInput(fmt::format(
      "there is no entry {} in this book; the last is {}\n  'vatwright book history LOT' names the entries of a lot",
      number, last()));
}

Json Book::payload(std::int64_t number) const { return Json::parse(entry(number).payload); }

std::optional<std::int64_t> Book::corrected_by(std::int64_t number) const {
  auto row = database_->prepare("SELECT corrected_by FROM happened WHERE entry = ?");
  if (!row.with(number).step() || row.is_null(0)) return std::nullopt;
  return row.number(0);
}

Entry Book::append(const NewEntry& made) {
  check_text("by", made.who);
  Entry entry;
  entry.number = tail().number + 1;
  entry.kind = made.kind;
  entry.at = made.at.written;
  entry.entered = now().written;
  entry.who = made.who;
  entry.payload = made.payload.dump(-1, ' ', false, Json::error_handler_t::replace);
  entry.previous = tail().hash;
  entry.hash = hash_of(entry);
  try {
    enter(entry, vetted(entry));
  } catch (const InputError& error) {
    throw BadInput(std::string("nothing was entered: ") + error.what() + "\n  " + error.hint());
  }
  return entry;
}

void Book::append_as_it_is(const Entry& entry) {
  const auto& before = tail();
  if (entry.number != before.number + 1)
    throw InputError(fmt::format("entry {} after entry {}", entry.number, before.number),
                     "entries come in order, without a gap");
  if (entry.previous != before.hash || entry.hash != hash_of(entry))
    throw InputError(fmt::format("entry {} is not as it was written: its hash does not fit", entry.number),
                     "it was changed after it was exported; export it anew");
  enter(entry, vetted(entry));
}

// In the order of what happened the newest entry mostly comes last; then only it has to be looked at.
void Book::enter(const Entry& entry, const Json& payload) {
  writing_->enter
      .with(entry.number, entry.kind, entry.at, entry.entered, entry.who, entry.payload, entry.previous, entry.hash)
      .run();
  const auto moment = seconds_of(entry.at);
  tail_ = Tail{entry.number, entry.hash};
  const bool comes_last = !writing_->later.with(moment).step();
  writing_->later.run();
  writing_->happen.with(entry.number, moment).run();
  index_->touch(entry, moment, payload);
  if (!payload.contains("corrects")) {
    if (comes_last) return index_->apply(entry, moment, payload);
    return make_anew(*database_, *index_, moment);
  }
  if (!payload["corrects"].is_number_integer()) throw InputError("an entry that corrects no number", "name an entry");
  const auto slip = payload["corrects"].get<std::int64_t>();
  auto wrong = database_->prepare("SELECT moment, corrected_by FROM happened WHERE entry = ?");
  if (slip >= entry.number || !wrong.with(slip).step())
    throw InputError(fmt::format("a correction of entry {}, which there is not", slip),
                     "look with 'vatwright book history LOT'");
  if (!wrong.is_null(1))
    throw InputError(fmt::format("entry {} was corrected by entry {}", slip, wrong.number(1)), "correct that one");
  const auto from = std::min(moment, wrong.number(0));
  database_->prepare("UPDATE happened SET corrected_by = ? WHERE entry = ?").with(entry.number, slip).run();
  make_anew(*database_, *index_, from);
}

std::optional<LotState> Book::lot(const std::string& name, std::optional<std::int64_t> until) const {
  auto row = database_->prepare(
      until ? "SELECT facts FROM state WHERE lot = ? AND moment <= ? ORDER BY moment DESC, entry DESC LIMIT 1"
            : "SELECT facts FROM state WHERE lot = ? ORDER BY moment DESC, entry DESC LIMIT 1");
  if (until)
    row.with(name, *until);
  else
    row.with(name);
  if (!row.step()) return std::nullopt;
  return LotState::of(name, row.text(0));
}

LotState Book::known_lot(const std::string& name, std::optional<std::int64_t> until) const {
  if (auto found = lot(name, until)) return *found;
  const auto names = lot_names();
  const std::vector<std::string_view> known(names.begin(), names.end());
  const bool later = until && lot(name);
  throw BadInput(fmt::format("{}: there is no lot {} in this book{}\n  {}", file_.string(), in_quotes(name),
                             later ? " at that time" : "",
                             did_you_mean(name, known, "'vatwright book lots' lists them")));
}

std::vector<std::string> Book::lot_names() const {
  std::vector<std::string> names;
  auto rows = database_->prepare("SELECT name FROM lot ORDER BY name");
  while (rows.step()) names.push_back(rows.text(0));
  return names;
}

std::optional<std::string> Book::last_hour(const std::string& lot) const {
  auto row = database_->prepare(
      "SELECT e.at FROM touched t JOIN entry e ON e.number = t.entry WHERE t.lot = ? ORDER BY t.moment DESC, t.entry "
      "DESC LIMIT 1");
  return row.with(lot).step() ? std::optional(row.text(0)) : std::nullopt;
}

void Book::each_entry(const std::function<void(const Entry&)>& visit) const {
  auto rows = database_->prepare(std::string(entry_columns) + " ORDER BY number");
  while (rows.step()) visit(entry_at(rows));
}

fs::path default_file() {
  const auto said = [](const char* name) -> fs::path {
    const char* value = std::getenv(name);
    return value == nullptr ? "" : value;
  };
  constexpr char folder[] = "vatwright", file[] = "cellar.book";
  // A relative one is to be passed over (XDG Base Directory Specification).
  if (const auto data = said("XDG_DATA_HOME"); data.is_absolute()) return data / folder / file;
  if (const auto home = said("HOME"); home.is_absolute()) return home / ".local" / "share" / folder / file;
  throw BadInput("nobody says where the book is: there is no home folder\n  name it with --book FILE");
}

}  // namespace vatwright::book
