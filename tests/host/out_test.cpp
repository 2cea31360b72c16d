// --out: a file that is never half written, whatever happens while it is.
#include <gtest/gtest.h>

#include <fcntl.h>
#include <sys/stat.h>

#include <chrono>
#include <csignal>
#include <thread>

#include "tests/host/program.hpp"

namespace out_test {

using namespace vatwright::test;

std::string demo_file() { return (source_dir / "recipes/before-bottling.yaml").string(); }

std::size_t files_in(const fs::path& folder) {
  return static_cast<std::size_t>(std::distance(fs::directory_iterator(folder), fs::directory_iterator()));
}

TEST(OutTest, WritesTheSameAndLeavesNothingBeside) {
  const Folder folder;
  const auto file = folder.path() / "sheet.json";
  const auto said = call({"run", demo_file(), "--format", "json", "--out", file.string()});
  EXPECT_EQ(said.status, 0) << said.err;
  EXPECT_EQ(said.out, "");
  EXPECT_EQ(contents(file), call({"run", demo_file(), "--format", "json"}).out);
  EXPECT_EQ(files_in(folder.path()), 1U);
}

TEST(OutTest, TakesTheOldSheetsPlace) {
  const Folder folder;
  const auto file = folder.write("sheet.txt", "the old one");
  EXPECT_EQ(call({"run", demo_file(), "--out", file.string()}).status, 0);
  EXPECT_EQ(contents(file), call({"run", demo_file()}).out);
  EXPECT_EQ(files_in(folder.path()), 1U);
}

TEST(OutTest, ThroughASymbolicLink) {
  const Folder folder, elsewhere;
  const auto file = elsewhere.write("sheet.txt", "the old one");
  fs::create_symlink(file, folder.path() / "link");
  EXPECT_EQ(call({"run", demo_file(), "--out", (folder.path() / "link").string()}).status, 0);
  EXPECT_TRUE(fs::is_symlink(folder.path() / "link"));
  EXPECT_EQ(contents(file), call({"run", demo_file()}).out);
}

// By its own name or another: nothing that the run reads is written over.
TEST(OutTest, NothingThatIsReadIsWrittenOver) {
  const Folder folder;
  const std::vector<fs::path> read{
      folder.write("recipe.yaml",
                   "recipe: test\nrules: my rules.yaml\nsteps: [sulfite.addition: {target free SO2: 28 mg/L}]\n"),
      folder.write("lots.csv", "lot,volume [hL],pH,free SO2 [mg/L],total SO2 [mg/L]\nA,48,3.4,14,62\n"),
      folder.write("my rules.yaml",
                   "rules: my rules\nnote: ours\nlimits:\n  total SO2: [{at most: 90 mg/L, source: ours}]\n")};
  const auto run_to = [&](const fs::path& out) {
    return call({"run", read[0].string(), "--lots", read[1].string(), "--format", "csv", "--out", out.string()});
  };
  ASSERT_EQ(run_to(folder.path() / "out.csv").status, 0) << run_to(folder.path() / "out.csv").err;
  for (const auto& file : read) {
    const auto before = contents(file);
    const auto link = folder.path() / "link", twin = folder.path() / "twin";
    fs::create_symlink(file, link);
    fs::create_hard_link(file, twin);
    for (const auto& out : {file, link, twin, folder.path() / "." / file.filename()}) {
      const auto said = run_to(out);
      EXPECT_EQ(said.status, 2) << out;
      EXPECT_NE(said.err.find("which this run reads; nothing was computed"), std::string::npos) << said.err;
      EXPECT_EQ(contents(file), before);
    }
    fs::remove(link);
    fs::remove(twin);
  }
}

TEST(OutTest, NoDataOfTheProgramIsWrittenOver) {
  const auto catalogue = build_dir / "share/vatwright/substances.yaml";
  const auto before = contents(catalogue);
  const Folder folder;
  fs::create_symlink(catalogue, folder.path() / "sheet.txt");
  for (const auto& words : {std::vector<std::string>{"run", demo_file()}, {"manual"}}) {
    auto all = words;
    all.insert(all.end(), {"--out", (folder.path() / "sheet.txt").string()});
    EXPECT_EQ(call(all).status, 2);
    EXPECT_EQ(contents(catalogue), before);
  }
}

TEST(OutTest, AFileThatIsThereKeepsItsPermissions) {
  const Folder folder;
  const auto file = folder.write("sheet.txt", "the old one");
  for (const mode_t mode : {0600U, 0640U, 0644U, 0664U, 0444U, 0755U}) {
    ASSERT_EQ(::chmod(file.c_str(), mode), 0);
    EXPECT_EQ(call({"run", demo_file(), "--out", file.string()}).status, 0);
    struct stat facts {};
    ASSERT_EQ(::stat(file.c_str(), &facts), 0);
    EXPECT_EQ(facts.st_mode & 07777U, mode);
  }
}

TEST(OutTest, ADeviceIsWrittenToAndNotReplaced) {
  const Folder folder;
  EXPECT_EQ(call({"run", demo_file(), "--out", "/dev/null"}).status, 0);
  EXPECT_TRUE(fs::is_character_file("/dev/null"));
  const auto full = call({"run", demo_file(), "--out", "/dev/full"});
  EXPECT_EQ(full.status, 2);
  EXPECT_NE(full.err.find("/dev/full: cannot be written: No space left on device"), std::string::npos) << full.err;
  EXPECT_TRUE(fs::is_character_file("/dev/full"));
}

TEST(OutTest, FolderThatCannotBeWritten) {
  for (const auto* file : {"/proc/sheet.txt", "/nonexistent/sheet.txt"}) {
    const auto said = call({"run", demo_file(), "--out", file});
    EXPECT_EQ(said.status, 2);
    EXPECT_EQ(said.out, "");
    EXPECT_NE(said.err.find(std::string(file) + ": cannot be written"), std::string::npos) << said.err;
  }
}

TEST(OutTest, AFolderInTheWayLeavesNoTemporaryFile) {
  const Folder folder;
  fs::create_directory(folder.path() / "sheet");
  const auto said = call({"run", demo_file(), "--out", (folder.path() / "sheet").string()});
  EXPECT_EQ(said.status, 2) << said.err;
  EXPECT_EQ(files_in(folder.path()), 1U);
}

TEST(OutTest, BadInputLeavesTheOldSheet) {
  const Folder folder;
  const auto sheet = folder.write("sheet.txt", "the old one");
  const auto bad = folder.write("bad.yaml", "recipe: x\n");
  EXPECT_EQ(call({"run", bad.string(), "--out", sheet.string()}).status, 2);
  EXPECT_EQ(contents(sheet), "the old one");
  EXPECT_EQ(files_in(folder.path()), 2U);
}

TEST(OutTest, FullDiskOnStandardOutput) {
  const auto said = run_program("/bin/sh", {"-c", quoted((build_dir / "bin/vatwright").string()) + " run " +
                                                      quoted(demo_file()) + " >/dev/full"});
  EXPECT_EQ(said.status, 2);
  EXPECT_NE(said.err.find("standard output cannot be written"), std::string::npos) << said.err;
}

// A limit on the size of files stands for a full disk: the write fails half way.
TEST(OutTest, ADiskThatFillsUpLeavesTheOldSheet) {
  const Folder folder;
  const auto sheet = folder.write("sheet.txt", "the old one");
  const auto said = call({"run", demo_file(), "--out", sheet.string()}, "trap '' XFSZ; ulimit -f 1;");
  EXPECT_EQ(said.status, 2);
  EXPECT_NE(said.err.find(sheet.string() + ": cannot be written: File too large"), std::string::npos) << said.err;
  EXPECT_EQ(contents(sheet), "the old one");
  EXPECT_EQ(files_in(folder.path()), 1U);
}

// Ended by SIGPIPE, without a word, as any program in a pipe is.
TEST(OutTest, AClosedPipe) {
  const auto said = run_program("/bin/bash", {"-c", "trap - PIPE; " + quoted((build_dir / "bin/vatwright").string()) +
                                                        " substances 'tartaric acid' | true; echo ${PIPESTATUS[0]}"});
  const auto waits =
      run_program("/bin/bash", {"-c", "trap - PIPE; (sleep 1; exec " + quoted((build_dir / "bin/vatwright").string()) +
                                          " units) | true; echo ${PIPESTATUS[0]}"});
  EXPECT_TRUE(said.out == "0\n" || said.out == "141\n") << said.out;  // whichever is first
  EXPECT_EQ(waits.out, "141\n");                                      // 128 + SIGPIPE
  EXPECT_EQ(waits.err, "");
}

// --- a kill in the middle

bool knows_files_without_a_name(const fs::path& folder) {
  const int descriptor = ::open(folder.c_str(), O_TMPFILE | O_WRONLY, 0600);
  if (descriptor >= 0) ::close(descriptor);
  return descriptor >= 0;
}

// Runs a table of lots whose last one never ends, and kills it when the first rows must be written.
void expect_nothing_left(int signal, bool old_sheet) {
  const Folder folder;
  if (!knows_files_without_a_name(folder.path()))
    GTEST_SKIP() << "this file system knows no files without a name; a kill leaves sheet.csv.XXXXXX";
  const Folder work;
  const auto recipe = work.write("r.yaml", "recipe: test\nsteps: [faulty.slow: {amount: 2}]\n");
  const auto table = work.write("lots.csv", "lot,pH\nA,3.4\n");
  const auto sheet = folder.path() / "sheet.csv";
  if (old_sheet) folder.write("sheet.csv", "the old one");
  const pid_t child = ::fork();
  ASSERT_GE(child, 0);
  if (child == 0) {
    const auto program = (build_dir / "bin/vatwright").string();
    ::execl(program.c_str(), program.c_str(), "run", recipe.c_str(), "--lots", table.c_str(), "--format", "csv",
            "--out", sheet.c_str(), "--plugins", VATWRIGHT_FIXTURES "/faulty", nullptr);
    ::_exit(127);
  }
  // Until the head of the table has been written to a file that has no name.
  const fs::path open_files = "/proc/" + std::to_string(child) + "/fd";
  bool writing = false;
  for (int turn = 0; turn < 600 && !writing; ++turn) {
    std::this_thread::sleep_for(std::chrono::milliseconds(50));
    std::error_code ec;
    for (const auto& entry : fs::directory_iterator(open_files, ec)) {
      const auto target = fs::read_symlink(entry.path(), ec).string();
      struct stat facts {};
      if (target.starts_with(folder.path().string()) && ::stat(entry.path().c_str(), &facts) == 0)
        writing = writing || facts.st_size > 0;
    }
  }
  EXPECT_TRUE(writing) << "the table was never begun";
  ::kill(child, signal);
  int status = 0;
  ::waitpid(child, &status, 0);
  EXPECT_TRUE(WIFSIGNALED(status) && WTERMSIG(status) == signal);
  EXPECT_EQ(files_in(folder.path()), old_sheet ? 1U : 0U);
  EXPECT_EQ(contents(sheet), old_sheet ? "the old one" : "");
}

TEST(OutTest, AKillLeavesNothing) { expect_nothing_left(SIGKILL, false); }
TEST(OutTest, AKillLeavesTheOldSheet) { expect_nothing_left(SIGKILL, true); }
TEST(OutTest, AnInterruptLeavesNothing) { expect_nothing_left(SIGTERM, false); }

}  // namespace out_test
