// Plugins that are not as they should be are refused by name and remedy; the rest go on working.
// The fixtures stand in tests/host/fixtures.
#include <gtest/gtest.h>

#include <fmt/format.h>

#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <random>

#include "host/files/hash.hpp"
#include "host/loader/registry.hpp"
#include "host/plugin/plugin.hpp"
#include "tests/host/program.hpp"

namespace loader_test {

using namespace vatwright;
using namespace vatwright::test;

const fs::path fixtures = VATWRIGHT_FIXTURES;

fs::path fixture(const std::string& name) { return fixtures / name / (name + ".so"); }

const std::vector<std::string> a_sound_step{"compute", "sulfite.molecular", "pH=3.40", "free SO2=30 mg/L"};

std::vector<std::string> with_plugins(std::vector<std::string> command, const fs::path& folder) {
  command.insert(command.end(), {"--plugins", folder.string()});
  return command;
}

// The file is named with its remedy, the program's own plugins go on, and a step that needs the
// refused plugin ends with status 3 and no sheet.
void expect_refused(const fs::path& folder, const std::string& file, const std::string& says) {
  const auto other = call(with_plugins(a_sound_step, folder));
  EXPECT_EQ(other.status, 0) << other.err;
  EXPECT_NE(other.out.find("molecular SO2"), std::string::npos) << other.out;
  EXPECT_NE(other.err.find(file), std::string::npos) << "the file is not named: " << other.err;
  EXPECT_NE(other.err.find(says), std::string::npos) << other.err;
  const auto list = call(with_plugins({"list"}, folder));
  EXPECT_EQ(list.status, 3) << list.err;
  EXPECT_NE(list.out.find("sulfite.molecular"), std::string::npos);
  const auto needed = call(with_plugins({"compute", "unheard.double", "amount=2"}, folder));
  EXPECT_EQ(needed.status, 3) << needed.err;
  EXPECT_EQ(needed.out, "");
  EXPECT_NE(needed.err.find(file), std::string::npos) << needed.err;
  EXPECT_NE(needed.err.find(says), std::string::npos) << needed.err;
}

void expect_fixture_refused(const std::string& name, const std::string& says) {
  expect_refused(fixtures / name, fixture(name).string(), says);
}

TEST(LoaderTest, SoundPluginWorks) {
  const auto said = call(with_plugins({"compute", "sound.double", "amount=2"}, fixtures / "sound"));
  EXPECT_EQ(said.status, 0) << said.err;
  EXPECT_EQ(said.err, "");
  EXPECT_NE(said.out.find("twice"), std::string::npos) << said.out;
}

TEST(LoaderTest, OtherInterface) {
  const auto ours = fmt::format("this program has {:08x}; rebuild the plugin", vatwright::plugin_interface);
  expect_fixture_refused("other_interface", "built for plugin interface 00000063, " + ours);
}
TEST(LoaderTest, OtherToolchain) { expect_fixture_refused("other_toolchain", ", assertions', this program with '"); }
TEST(LoaderTest, ManifestThatIsNone) { expect_fixture_refused("impostor", "wrong magic number"); }
TEST(LoaderTest, LibraryWithoutManifest) { expect_fixture_refused("ordinary", "not a plugin"); }
TEST(LoaderTest, InputWithoutRange) {
  expect_fixture_refused("no_range", "input 'amount' of 'double' has no valid range");
}
TEST(LoaderTest, SeriesWithoutARangeOfItsFirstColumn) {
  expect_fixture_refused("no_first_range", "input 'amount' of 'double' has no valid range of its first column");
}
TEST(LoaderTest, InputWithoutHelp) { expect_fixture_refused("no_help", "input 'amount' of 'double' has no help"); }
TEST(LoaderTest, AmountsWithoutChoices) {
  expect_fixture_refused("no_choices", "input 'amount' of 'double' has no choices");
}
TEST(LoaderTest, UnitThatIsNone) {
  expect_fixture_refused("misspelt_unit", "'amount' of 'double' has no unit of its dimension");
}
TEST(LoaderTest, UnitOfAnotherDimension) {
  expect_fixture_refused("unit_of_another", "'amount' of 'double' has no unit of its dimension");
}
TEST(LoaderTest, LotsNameForAnotherQuantity) {
  expect_fixture_refused("name_of_lots", "input 'sugar' of 'double' has the name of another quantity that lots have");
}
TEST(LoaderTest, HelpThatRingsABell) {
  expect_fixture_refused("rings_a_bell", "an input of 'double' whose name or help cannot be printed");
}
TEST(LoaderTest, ChangeOfWhatNoLotHas) {
  expect_fixture_refused("changes_moonlight", "'double' changes 'moonlight', which no lot has");
}
TEST(LoaderTest, ChangeOfAnotherQuantity) {
  expect_fixture_refused("changes_another", "'double' changes 'pH' as another quantity than the one that lots have");
}
TEST(LoaderTest, TwoInputsOfOneName) { expect_fixture_refused("two_of_a_name", "'double' has two inputs 'amount'"); }
TEST(LoaderTest, TwoResultsOfOneName) { expect_fixture_refused("two_results", "'double' has two results 'twice'"); }
TEST(LoaderTest, NameThatIsTaken) { expect_fixture_refused("taken", "a plugin 'sulfite' is already there"); }

TEST(LoaderTest, HalfAFile) {
  const Folder folder;
  const auto whole = contents(fixture("sound"));
  const auto half = folder.write("half.so", whole.substr(0, whole.size() / 2));
  expect_refused(folder.path(), half.string(), "not a whole shared library; copy or build it again");
}

// Cut anywhere, the file is refused or, when only its last tables are gone, opened: it never ends
// the process by a signal.
TEST(LoaderTest, FileCutAnywhere) {
  const auto whole = contents(fixture("sound"));
  for (std::size_t part = 0; part < 20; ++part) {
    const Folder folder;
    folder.write("cut.so", whole.substr(0, whole.size() * part / 20));
    const auto said = call(with_plugins(a_sound_step, folder.path()));
    EXPECT_EQ(said.status, 0) << part << " of 20: " << said.err;
    EXPECT_NE(said.err.find("cut.so"), std::string::npos) << part << " of 20";
  }
}

TEST(LoaderTest, TextNamedAsALibrary) {
  const Folder folder;
  const auto file = folder.write("notes.so", "buy more yeast\n");
  expect_refused(folder.path(), file.string(), "not a whole shared library; copy or build it again");
}

// In the head of an ELF file: byte 4 is its width (1: 32 bits), byte 5 its byte order (2: the large
// end first), byte 18 the machine (183: ARM of 64 bits, 3: x86 of 32). Source: elf(5).
TEST(LoaderTest, ForeignArchitecture) {
  struct Change {
    std::size_t at;
    char to;
  };
  for (const auto& [at, to] : {Change{18, '\xB7'}, Change{18, '\x03'}, Change{4, '\x01'}, Change{5, '\x02'}}) {
    SCOPED_TRACE(at);
    const Folder folder;
    auto library = contents(fixture("sound"));
    library.at(at) = to;
    const auto file = folder.write("foreign.so", library);
    expect_refused(folder.path(), file.string(), file.string() + ": ");
  }
}

TEST(LoaderTest, SymbolicLink) {
  const Folder folder, elsewhere;
  fs::copy_file(fixture("sound"), elsewhere.path() / "sound.so");
  fs::create_symlink(elsewhere.path() / "sound.so", folder.path() / "sound.so");
  expect_refused(folder.path(), (folder.path() / "sound.so").string(), "a symbolic link, refused");
}

TEST(LoaderTest, FolderAboveWritableByEverybody) {
  const Folder folder;
  const auto inner = folder.path() / "plugins";
  fs::create_directory(inner);
  fs::copy_file(fixture("sound"), inner / "sound.so");
  fs::permissions(folder.path(), fs::perms::others_write, fs::perm_options::add);
  expect_refused(inner, folder.path().string(), "chmod o-w");
}

TEST(LoaderTest, FolderAboveWithAStickyBitIsAsGoodAsTmp) {
  const Folder folder;
  const auto inner = folder.path() / "plugins";
  fs::create_directory(inner);
  fs::copy_file(fixture("sound"), inner / "sound.so");
  fs::permissions(folder.path(), fs::perms::others_write | fs::perms::sticky_bit, fs::perm_options::add);
  EXPECT_EQ(call(with_plugins({"compute", "sound.double", "amount=2"}, inner)).status, 0);
}

// The host cannot stop a calculation; what does not compute does not wait for it.
TEST(LoaderTest, SlowPluginHoldsUpNothingThatDoesNotRunIt) {
  const Folder scratch;
  const auto recipe = scratch.write("r.yaml", "recipe: t\nlots: {A: {pH: 3.4}}\nsteps: [faulty.slow: {amount: 2}]\n");
  const auto faulty = (fixtures / "faulty").string();
  for (const auto& command : std::vector<std::vector<std::string>>{{"list"}, {"check", recipe.string()}}) {
    auto arguments = command;
    arguments.insert(arguments.end(), {"--plugins", faulty});
    EXPECT_EQ(call(arguments, "timeout 20").status, 0);
  }
  EXPECT_EQ(call({"run", recipe.string(), "--plugins", faulty}, "timeout 1").status, 124);  // timeout(1): was stopped
}

TEST(LoaderTest, FileWritableByEverybody) {
  const Folder folder;
  const auto file = folder.path() / "sound.so";
  fs::copy_file(fixture("sound"), file);
  fs::permissions(file, fs::perms::others_write, fs::perm_options::add);
  expect_refused(folder.path(), file.string(), "chmod o-w");
}

TEST(LoaderTest, FolderWritableByEverybody) {
  const Folder folder;
  fs::copy_file(fixture("sound"), folder.path() / "sound.so");
  fs::permissions(folder.path(), fs::perms::others_write, fs::perm_options::add);
  expect_refused(folder.path(), folder.path().string(), "chmod o-w");
}

// A user and a group that are nobody's here; only root may give a file away.
TEST(LoaderTest, FileOfAnotherUserOrAForeignGroup) {
  if (::geteuid() != 0) GTEST_SKIP() << "only root can give a file away";
  constexpr unsigned other = 54321;
  for (const bool owner : {true, false}) {
    const Folder folder;
    const auto file = folder.path() / "sound.so";
    fs::copy_file(fixture("sound"), file);
    ASSERT_EQ(::chown(file.c_str(), owner ? other : 0, owner ? 0 : other), 0);
    fs::permissions(file, fs::perms::group_write, owner ? fs::perm_options::remove : fs::perm_options::add);
    expect_refused(folder.path(), file.string(), owner ? "belongs to another user" : "chmod g-w");
  }
}

// --- damage and breaking off

// Whatever bytes of it are damaged, a library ends nothing but its own use.
TEST(LoaderTest, DamagedAnywhere) {
  const auto whole = contents(fixture("sound"));
  std::mt19937 random(99);
  for (int turn = 0; turn < 2 + 30 / fewer; ++turn) {
    const Folder folder;
    auto damaged = whole;
    const auto at = random() % damaged.size();
    for (std::size_t i = at; i < std::min(damaged.size(), at + (1U << (turn % 12))); ++i)
      damaged[i] = static_cast<char>(~damaged[i]);
    folder.write("damaged.so", damaged);
    const auto said = call(with_plugins({"list"}, folder.path()));
    EXPECT_TRUE(said.status == 0 || said.status == 3) << at << ": " << said.status << said.err;
    EXPECT_NE(said.out.find("sulfite.molecular"), std::string::npos) << at;
    EXPECT_TRUE(said.status == 0 || said.err.find("damaged.so") != std::string::npos) << said.err;
  }
}

// A disk that loses bits changes neither size nor time stamp: the hash in the index tells.
TEST(LoaderTest, DamageThatLeavesTheTimeStamp) {
  const Folder folder;
  const auto file = folder.path() / "sound.so";
  fs::copy_file(fixture("sound"), file);
  EXPECT_EQ(write_index(folder.path()), std::vector<std::string>{});
  const auto written = fs::last_write_time(file);
  auto bytes = contents(file);
  bytes.at(bytes.size() / 2) = static_cast<char>(~bytes.at(bytes.size() / 2));
  fs::remove(file);  // another file: this process has opened the first
  folder.write("sound.so", bytes);
  fs::last_write_time(file, written);
  const auto list = call(with_plugins({"list"}, folder.path()));
  EXPECT_EQ(list.status, 3);
  EXPECT_NE(list.out.find("sulfite.molecular"), std::string::npos);
  EXPECT_NE(list.err.find("sound.so: damaged, refused"), std::string::npos) << list.err;
  EXPECT_EQ(call(with_plugins({"compute", "sound.double", "amount=2"}, folder.path())).status, 3);
  // An index of before the quick sum has the hash alone, and that tells too.
  auto index = contents(folder.path() / index_name);
  const auto at = index.find("\"checksum\"");
  ASSERT_NE(at, std::string::npos);
  folder.write(index_name, index.replace(at, 10, "\"other\""));
  EXPECT_EQ(call(with_plugins({"compute", "sound.double", "amount=2"}, folder.path())).status, 3);
}

// It says what was running, ends with the status of a plugin that failed, and yesterday's file stays as it was.
TEST(LoaderTest, ACrashOrAnExitIsNamed) {
  const Folder folder;
  const auto sheet = folder.write("sheet.txt", "yesterday\n");
  for (const std::string how : {"crash", "abort", "exit"}) {
    if (sanitized && how != "exit") continue;  // there the sanitizer has the word
    const std::string id = "faulty." + how;
    const auto said = call(with_plugins({"compute", id, "amount=2", "--out", sheet.string()}, fixtures / "faulty"));
    EXPECT_EQ(said.status, 3) << how;
    EXPECT_NE(said.err.find("vatwright: " + id), std::string::npos) << said.err;
    EXPECT_EQ(contents(sheet), "yesterday\n");
    EXPECT_EQ(said.out, "");
  }
}

// --- which files are opened

class MarkedFolder {
 public:
  MarkedFolder() {
    for (const auto* name : {"marker", "sound"})
      fs::copy_file(fixture(name), folder_.path() / (std::string(name) + ".so"));
  }
  bool opened(const std::string& calculation) {
    fs::remove(trace());
    const auto said =
        call(with_plugins({"compute", calculation, "amount=2"}, folder_.path()), "MARKER=" + quoted(trace().string()));
    EXPECT_EQ(said.status, 0) << said.err;
    EXPECT_EQ(said.err, "");
    return fs::exists(trace());
  }
  void index() { EXPECT_EQ(write_index(folder_.path()), std::vector<std::string>{}); }
  const fs::path& path() const { return folder_.path(); }

 private:
  fs::path trace() const { return folder_.path() / "trace"; }
  Folder folder_;
};

// A library of the same name in the folder that LD_LIBRARY_PATH names, or in the working directory, which an empty
// element of it stands for.
TEST(LoaderTest, TheProgramLoadsItsOwnLibrary) {
  const Folder folder;
  folder.write("libvatwright_units.so", "no library");
  for (const std::string& path : {folder.path().string(), folder.path().string() + ":", std::string(":")}) {
    const auto said = call({"units"}, "cd " + quoted(folder.path().string()) + " && LD_LIBRARY_PATH=" + quoted(path));
    EXPECT_EQ(said.status, 0) << path << ": " << said.err;
  }
}

// A sheet names the plugin's file by its hash: as the index has it, or reckoned.
TEST(LoaderTest, TheHashOfAPluginIsThatOfItsFile) {
  MarkedFolder folder;
  const auto reckoned = Registry({folder.path()}).sha256_of("sound");
  EXPECT_EQ(reckoned.size(), 64U);
  folder.index();
  EXPECT_EQ(Registry({folder.path()}).sha256_of("sound"), reckoned);
  EXPECT_EQ(reckoned, sha256_of_file(folder.path() / "sound.so"));
}

TEST(LoaderTest, OnlyThePluginThatIsNamedIsOpened) {
  MarkedFolder folder;
  folder.index();
  EXPECT_FALSE(folder.opened("sound.double"));
  EXPECT_TRUE(folder.opened("marker.double"));
}

// An installation keeps whole seconds of a time stamp.
TEST(LoaderTest, AnInstalledPluginIsTheOneThatWasIndexed) {
  MarkedFolder folder;
  folder.index();
  for (const auto& file : plugin_files(folder.path()))
    fs::last_write_time(file, std::chrono::floor<std::chrono::seconds>(fs::last_write_time(file)));
  EXPECT_FALSE(folder.opened("sound.double"));
}

TEST(LoaderTest, WithoutAnIndexTheManifestsDecide) {
  MarkedFolder folder;
  EXPECT_TRUE(folder.opened("sound.double"));
}

TEST(LoaderTest, AFileChangedSinceTheIndexIsLookedInto) {
  MarkedFolder folder;
  folder.index();
  fs::last_write_time(folder.path() / "marker.so", fs::file_time_type::clock::now() - std::chrono::hours(1));
  EXPECT_TRUE(folder.opened("sound.double"));
}

// The index tells where to look; what the file holds decides.
TEST(LoaderTest, AnIndexThatLiesIsFoundOut) {
  MarkedFolder folder;
  folder.index();
  auto index = contents(folder.path() / "index.json");
  index.replace(index.find("\"sound\""), 7, "\"noise\"");
  std::ofstream(folder.path() / "index.json") << index;
  const auto said = call(with_plugins({"compute", "noise.double", "amount=2"}, folder.path()));
  EXPECT_EQ(said.status, 3);
  EXPECT_NE(said.err.find("the index says 'noise'; write the index anew"), std::string::npos) << said.err;
}

TEST(LoaderTest, AnIndexThatIsNoIndexIsPassedOver) {
  for (const auto* text : {"", "{", "[1, {\"plugin\": 3}]", "[{\"plugin\":\"x\",\"file\":\"../sound.so\"}]"}) {
    MarkedFolder folder;
    std::ofstream(folder.path() / "index.json") << text;
    EXPECT_TRUE(folder.opened("sound.double")) << text;
  }
}

TEST(LoaderTest, TheIndexToolSaysWhenItCannotWrite) {
  for (const auto* folder : {"/proc", "/nonexistent"}) {
    const auto said = run_program(build_dir / "bin/vatwright-index", {folder});
    EXPECT_NE(said.status, 0) << folder;
    EXPECT_NE(said.err.find(folder), std::string::npos) << said.err;
  }
}

TEST(LoaderTest, PluginFoldersMayBeSeveral) {
  for (const auto* calculation : {"sound.double", "marker.double"}) {
    const auto said = call({"--plugins", (fixtures / "sound").string(), "--plugins", (fixtures / "marker").string(),
                            "compute", calculation, "amount=2"});
    EXPECT_EQ(said.status, 0) << said.err;
  }
}

TEST(LoaderTest, PluginFolderThatIsNotThere) {
  const auto said = call(with_plugins({"list"}, "/nonexistent/plugins"));
  EXPECT_EQ(said.status, 3);
  EXPECT_NE(said.err.find("/nonexistent/plugins: no such plugin folder"), std::string::npos) << said.err;
}

TEST(LoaderTest, NeverFromTheWorkingFolder) {
  const Folder folder;
  fs::copy_file(fixture("sound"), folder.path() / "sound.so");
  const auto said =
      call({"compute", "sound.double", "amount=2"}, "cd " + quoted(folder.path().string()) + " && LD_LIBRARY_PATH=.");
  EXPECT_EQ(said.status, 3) << said.out;
  EXPECT_EQ(said.out, "");
  EXPECT_NE(said.err.find("there is no plugin 'sound'"), std::string::npos) << said.err;
}

}  // namespace loader_test
