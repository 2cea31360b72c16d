// What must not harm a book: kills, a full disk, two who write at once, changed bytes, newer books, hostile imports.
#include <fcntl.h>
#include <gtest/gtest.h>
#include <signal.h>
#include <sys/wait.h>
#include <unistd.h>

#include <atomic>
#include <chrono>
#include <map>
#include <random>
#include <thread>

#include "host/book/check.hpp"
#include "host/book/views.hpp"
#include "host/files/hash.hpp"
#include "host/yaml/document.hpp"
#include "tests/host/book.hpp"

namespace book_faults_test {

using namespace vatwright;
using namespace vatwright::test;
using Json = nlohmann::json;

bool says(const std::string& text, const std::string& part) {
  if (text.find(part) != std::string::npos) return true;
  ADD_FAILURE() << "no '" << part << "' in: " << text;
  return false;
}

// Started, and killed after so many microseconds; what it had said by then when it came to its end, else nothing.
std::optional<std::string> killed_after(int microseconds, const std::vector<std::string>& words) {
  int ends[2];
  if (::pipe(ends) != 0) throw std::runtime_error("pipe failed");
  const std::string program = (build_dir / "bin/vatwright").string();
  std::vector<char*> argv{const_cast<char*>(program.c_str())};
  for (const auto& word : words) argv.push_back(const_cast<char*>(word.c_str()));
  argv.push_back(nullptr);
  const pid_t child = ::fork();
  if (child == 0) {
    ::dup2(ends[1], STDOUT_FILENO);
    const int nowhere = ::open("/dev/null", O_WRONLY);
    ::dup2(nowhere, STDERR_FILENO);
    ::close(ends[0]);
    ::close(ends[1]);
    ::execv(program.c_str(), argv.data());
    ::_exit(127);
  }
  ::close(ends[1]);
  std::this_thread::sleep_for(std::chrono::microseconds(microseconds));
  ::kill(child, SIGKILL);
  std::string said;
  char block[4096];
  for (ssize_t n; (n = ::read(ends[0], block, sizeof block)) > 0;) said.append(block, static_cast<std::size_t>(n));
  ::close(ends[0]);
  int status = 0;
  ::waitpid(child, &status, 0);
  // What was said was entered, whether or not the program lived to its end.
  if (said.ends_with("\n")) return said;
  return std::nullopt;
}

int number_after(const std::string& text, const std::string& word) {
  const auto at = text.find(word);
  return at == std::string::npos ? 0 : std::stoi(text.substr(at + word.size()));
}

// Of an entry, in microseconds, and half as much again: a kill comes at any moment of a run, or just after it.
int time_of_one(const CellarBook& book) {
  const auto start = std::chrono::steady_clock::now();
  constexpr int times = 3;
  for (int i = 0; i < times; ++i) EXPECT_EQ(book({"measure", "T5", "pH=3.4"}).status, 0);
  const auto took = std::chrono::steady_clock::now() - start;
  return static_cast<int>(std::chrono::duration_cast<std::chrono::microseconds>(took).count() * 3 / 2 / times);
}

TEST(BookFaults, KillsLoseNothingThatWasAnswered) {
  const CellarBook book;
  const std::string file = book.file.string();
  ASSERT_EQ(book({"measure", "T5", "volume=10 hL"}).status, 0);
  // Sheets to keep, each of a lot of its own.
  constexpr int kills = 300 / fewer, every = 10;
  const int longest = time_of_one(book);
  std::vector<std::string> sheets;
  for (int i = 0; i < kills / every; ++i) {
    const std::string lot = "S" + std::to_string(i);
    const auto recipe = book.folder.write(
        lot + ".yaml", pink_recipe("  - acid.addition: {target pH: 3.30}\n", "{" + lot + ": " + pink_lot + "}"));
    sheets.push_back((book.folder.path() / (lot + ".json")).string());
    ASSERT_LT(call({"run", recipe.string(), "--format", "json", "--out", sheets.back()}).status, 2);
  }
  std::mt19937 random(19);
  std::map<int, std::string> answered;  // by entry: what must stand in it
  int sheet_number = 0;
  for (int i = 0; i < kills; ++i) {
    const int wait = static_cast<int>(random() % static_cast<unsigned>(longest));
    const std::string marker = "sample-" + std::to_string(i);
    if (i % every == 3) {
      if (const auto said = killed_after(
              wait, {"book", "keep", sheets[static_cast<std::size_t>(i / every)], "--by", marker, "--book", file}))
        if ((sheet_number = number_after(*said, "kept as sheet ")) > 0) answered[sheet_number] = marker;
    } else if (i % every == 7 && sheet_number > 0) {
      const auto said =
          killed_after(wait, {"book", "done", std::to_string(sheet_number), "--by", marker, "--book", file});
      if (const int number = said ? number_after(*said, "entry ") : 0; number > 0) answered[number] = marker;
    } else if (const auto said =
                   killed_after(wait, {"book", "measure", "T5", "pH=3.4", "--sample", marker, "--book", file})) {
      if (const int number = number_after(*said, "entry "); number > 0) answered[number] = marker;
    }
  }
  // Some came to their end, some did not.
  EXPECT_GT(answered.size(), std::size_t{kills} / 20);
  EXPECT_LT(answered.size(), std::size_t{kills});
  const auto check = book({"check"});
  EXPECT_EQ(check.status, 0) << check.out;
  std::map<int, std::string> there;
  std::istringstream lines(book({"export"}).out);
  for (std::string line; std::getline(lines, line);) there[Json::parse(line)["entry"]] = line;
  for (const auto& [number, marker] : answered) says(there[number], marker);
}

TEST(BookFaults, AFullDiskIsSaidAndHarmsNothing) {
  const CellarBook book;
  ASSERT_EQ(book({"measure", "T5", "volume=10 hL"}).status, 0);
  const auto before = book({"export"}).out;
  // More than the log beside the book may hold here.
  const std::string long_name(150, 'x');
  int refused = 0;
  for (int i = 0; i < 20 && refused == 0; ++i) {
    const auto said = book({"measure", long_name + std::to_string(i), "pH=3.4"}, "trap '' XFSZ; ulimit -f 60;");
    if (said.status == 0) continue;
    ++refused;
    EXPECT_EQ(said.status, 2);
    says(said.err, "disk is full");
  }
  EXPECT_EQ(refused, 1);
  EXPECT_EQ(book({"check"}).status, 0);
  EXPECT_EQ(book({"export"}).out.substr(0, before.size()), before);
  EXPECT_EQ(book({"measure", "T5", "pH=3.4"}).status, 0);
}

TEST(BookFaults, TwoWriteAndFiveReadAtOnce) {
  const CellarBook book;
  ASSERT_EQ(book({"measure", "T0", "volume=10 hL"}).status, 0);
  std::atomic<bool> stop = false;
  std::atomic<int> entered = 1, refused = 0, unread = 0;
  std::vector<std::thread> people;
  for (int w = 0; w < 2; ++w)
    people.emplace_back([&, w] {
      while (!stop) ++(book({"measure", "T" + std::to_string(w), "pH=3.4"}).status == 0 ? entered : refused);
    });
  for (int r = 0; r < 5; ++r)
    people.emplace_back([&] {
      while (!stop)
        if (book({"lots"}).status != 0) ++unread;
    });
  std::this_thread::sleep_for(std::chrono::seconds(20 / fewer));
  stop = true;
  for (auto& person : people) person.join();
  EXPECT_EQ(refused, 0);
  EXPECT_EQ(unread, 0);
  EXPECT_GT(entered, 4);
  EXPECT_EQ(book({"check"}).status, 0);
  const auto lines = book({"export"}).out;
  EXPECT_EQ(std::count(lines.begin(), lines.end(), '\n'), entered);
}

// All that a reader of the book can be told, or nothing where it is refused.
std::optional<std::string> all_of(const fs::path& file) {
  try {
    const book::Book book(file, book::Book::To::read);
    if (!book::faults(book).empty()) return std::nullopt;
    std::string all;
    book.each_entry([&](const book::Entry& entry) { all += book::export_line(entry) + "\n"; });
    return all + book::lots_json(book, std::nullopt).dump() + book::history_json(book, "T5").dump();
  } catch (const BadInput&) {
    return std::nullopt;
  } catch (const sql::Trouble&) {
    return std::nullopt;
  } catch (const InputError&) {
    return std::nullopt;
  }
}

TEST(BookFaults, AChangedByteIsFoundOrHarmless) {
  const CellarBook book;
  ASSERT_LT(book.keep(pink_recipe("  - acid.addition: {target pH: 3.30}\n"), {"--by", "Ann"}).status, 2);
  ASSERT_EQ(book({"done", "1", "--batch", "L-1"}).status, 0);
  ASSERT_EQ(book({"measure", "T5", "pH=3.31"}).status, 0);
  ASSERT_EQ(book({"withdraw", "3", "--why", "a slip"}).status, 0);
  const auto copy = book.folder.path() / "copy.book";
  ASSERT_EQ(book({"copy", copy.string()}).status, 0);
  const auto whole = all_of(copy);
  ASSERT_TRUE(whole);
  const std::string bytes = contents(copy);
  std::mt19937 random(1000);
  int found = 0;
  constexpr int flips = 1000 / fewer;
  const auto damaged = book.folder.path() / "damaged.book";
  for (int i = 0; i < flips; ++i) {
    std::string changed = bytes;
    const auto at = random() % bytes.size();
    changed[at] = static_cast<char>(changed[at] ^ (1 << random() % 8));
    for (const char* beside : {"", "-wal", "-shm"}) fs::remove(damaged.string() + beside);
    book.folder.write("damaged.book", changed);
    const auto read = all_of(damaged);
    if (!read)
      ++found;
    else
      EXPECT_EQ(*read, *whole) << "a flip at byte " << at << " is read, and was not found";
  }
  EXPECT_GT(found, flips / 10) << "most of this small book is room that nothing fills";
}

TEST(BookFaults, ANewerBookAndAnotherFileAreRefused) {
  const CellarBook book;
  ASSERT_EQ(book({"measure", "T5", "volume=10 hL"}).status, 0);
  { sql::Database(book.file, sql::Database::Mode::write).execute("PRAGMA user_version=99"); }
  for (const auto& words : {std::vector<std::string>{"lots"}, {"measure", "T5", "pH=3.4"}}) {
    const auto said = book(words);
    EXPECT_EQ(said.status, 2);
    says(said.err, "written by a newer vatwright");
  }
  const Folder folder;
  const auto text = folder.write("notes.txt", std::string(5000, 'x')).string();
  EXPECT_EQ(call({"book", "measure", "T5", "pH=3.4", "--book", text}).status, 2);
  EXPECT_EQ(contents(text), std::string(5000, 'x'));
  const auto other = (folder.path() / "other.db").string();
  { sql::Database(other, sql::Database::Mode::write).execute("CREATE TABLE mine(x)"); }
  says(call({"book", "measure", "T5", "pH=3.4", "--book", other}).err, "a file of another program");
  EXPECT_EQ(call({"book", "lots", "--book", folder.path().string()}).status, 2);
}

TEST(BookFaults, ABookLiesOnAnyPath) {
  const Folder folder;
  for (const char* name : {"a b?c#d%41", ":memory:", "it's \"quoted\"", "Kellerbuch für Rosé", "line\nend", "-x"}) {
    SCOPED_TRACE(name);
    const auto file = (folder.path() / name / name).string();
    ASSERT_EQ(call({"book", "measure", "T5", "pH=3.4", "--book", file}).status, 0);
    EXPECT_TRUE(fs::exists(file));
    EXPECT_EQ(call({"book", "check", "--book", file}).status, 0);
  }
}

// An entry as anyone could make one.
std::string line_of(int number, const std::string& previous, const std::string& payload, std::string& hash) {
  book::Entry entry{number,   "measured", "2026-10-03T09:00:00+02:00", "2026-10-03T09:00:00+02:00", "", payload,
                    previous, ""};
  hash = entry.hash = book::hash_of(entry);
  return book::export_line(entry) + "\n";
}

std::string reading_of(const std::string& lot) {
  return Json{{"lot", lot}, {"readings", {{"pH", {{"value", 3.4}, {"unit", "pH"}}}}}}.dump();
}

TEST(BookFaults, HostileImportsAreRefusedOrHarmless) {
  const std::string none(book::no_entry);
  std::string hash;
  const auto import = [](const CellarBook& book, const std::string& lines) {
    return book({"import", book.folder.write("in.jsonl", lines).string()});
  };
  {
    const CellarBook book;
    for (const auto& lot : {std::string(1 << 20, 'x'), std::string("=1+1"), std::string("a\nb"), std::string()}) {
      const auto said = import(book, line_of(1, none, reading_of(lot), hash));
      EXPECT_EQ(said.status, 2);
      EXPECT_LT(said.err.size(), 2000U);
    }
    for (const char* payload :
         {"{}", "[]", "{\"lot\":1}", "{\"lot\":\"T\",\"readings\":{\"pH\":{\"value\":\"x\",\"unit\":\"pH\"}}}",
          "{\"lot\":\"T\",\"readings\":{\"pH\":7}}",
          "{\"lot\":\"T\",\"readings\":{\"pH\":{\"value\":3,\"unit\":\"L\"}}}",
          "{\"corrects\":9,\"lot\":\"T\",\"readings\":{}}"})
      EXPECT_EQ(import(book, line_of(1, none, payload, hash)).status, 2) << payload;
    EXPECT_EQ(import(book, line_of(1, none, std::string(100'000, '['), hash)).status, 2);
    EXPECT_EQ(import(book, line_of(2, none, reading_of("T"), hash)).status, 2);
    EXPECT_EQ(import(book, "{}\n").status, 2);
    EXPECT_EQ(import(book, std::string(1 << 20, '{')).status, 2);
    says(book({"lots"}).out, "no lots yet");
    EXPECT_EQ(book({"check"}).status, 0);
  }
  const CellarBook book;
  const std::string robert = "T'); DROP TABLE entry";
  ASSERT_EQ(import(book, line_of(1, none, reading_of(robert), hash)).status, 0);
  EXPECT_EQ(book.number(robert, "pH"), 3.4);
  EXPECT_EQ(book({"check"}).status, 0);
}

// A million lines are read: the first are a book, and the rest say what it has already.
TEST(BookFaults, ManyRowsAreImported) {
  const CellarBook book;
  std::string lines, previous(book::no_entry), hash, line;
  constexpr int entries = 20'000 / fewer, rows = 1'000'000 / fewer;
  for (int i = 1; i <= entries; ++i) {
    lines += line = line_of(i, previous, reading_of("T" + std::to_string(i % 100)), hash);
    previous = hash;
  }
  const auto exported = lines;
  lines.reserve(lines.size() + line.size() * (rows - entries));
  for (int i = entries; i < rows; ++i) lines += line;
  const auto said = book({"import", book.folder.write("in.jsonl", lines).string()});
  ASSERT_EQ(said.status, 0) << said.err;
  says(said.out, std::to_string(entries) + " entries imported, " + std::to_string(entries) + " in all");
  EXPECT_EQ(book.json({"lots"})["lots"].size(), 100U);
  EXPECT_EQ(book({"export"}).out, exported);
  // The last of a million is no entry: nothing of them is imported.
  const CellarBook other;
  const auto refused = other({"import", other.folder.write("in.jsonl", lines + "{}\n").string()});
  EXPECT_EQ(refused.status, 2);
  says(refused.err, "in.jsonl:" + std::to_string(rows + 1) + ": ");
  says(other({"lots"}).out, "no lots yet");
}

// Who may not write may read, and is told so. To the person who owns the machine nothing is forbidden: that part is
// looked at as another person, where there is a way to be one.
TEST(BookFaults, AReadOnlyBookIsReadAndNotWritten) {
  const CellarBook book;
  ASSERT_EQ(book({"measure", "T5", "volume=10 hL", "pH=3.4"}).status, 0);
  const auto folder = book.file.parent_path();
  fs::permissions(book.file, fs::perms::owner_read | fs::perms::group_read | fs::perms::others_read);
  fs::permissions(folder, fs::perms::owner_read | fs::perms::owner_exec | fs::perms::group_read |
                              fs::perms::group_exec | fs::perms::others_read | fs::perms::others_exec);
  const std::string somebody =
      ::geteuid() == 0 ? "setpriv --reuid=65534 --regid=65534 --clear-groups --inh-caps=-all env HOME=/nonexistent"
                       : "";
  const bool can_be =
      somebody.empty() || std::system((somebody + " test -x " + quoted(build_dir.string())).c_str()) == 0;
  if (can_be) {
    const auto read = book({"lot", "T5"}, somebody);
    EXPECT_EQ(read.status, 0) << read.err;
    says(read.out, "3.4");
    EXPECT_EQ(book({"check"}, somebody).status, 0);
    const auto written = book({"measure", "T5", "pH=3.5"}, somebody);
    EXPECT_EQ(written.status, 2);
    says(written.err, "may only be read here; nothing was entered");
  }
  fs::permissions(folder, fs::perms::owner_all);
  fs::permissions(book.file, fs::perms::owner_all);
  EXPECT_EQ(book.number("T5", "pH"), 3.4);
  EXPECT_EQ(book.json({"check"})["entries"], 1);
}

}  // namespace book_faults_test
