// recipes/season: a season from picking to label, kept in a cellar book.
#include "tests/folder.hpp"
#include "tests/host/house.hpp"
#include "tests/host/program.hpp"

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <string>
#include <vector>

namespace season_test {

using namespace vatwright::test;

const fs::path season = source_dir / "recipes/season";

std::vector<fs::path> recipes() {
  std::vector<fs::path> files;
  for (const auto& entry : fs::directory_iterator(season))
    if (entry.path().extension() == ".yaml") files.push_back(entry.path());
  std::sort(files.begin(), files.end());
  return files;
}

TEST(Season, FromPickingToLabelInTheBook) {
  const Folder folder;
  const auto book = (folder.path() / "season.book").string();
  const auto path = "PATH=" + quoted((build_dir / "bin").string()) + ":$PATH";
  const auto said = run_program(season / "run", {book}, path);
  EXPECT_EQ(said.status, 0) << said.out << said.err;
  for (const char* words : {"Daybreak", "potassium polyaspartate", "gum arabic", "in order"})
    EXPECT_NE(said.out.find(words), std::string::npos) << words;

  // Each recipe reads by itself, with the book as the season leaves it where it takes a lot from there.
  ASSERT_GE(recipes().size(), 15U);
  ASSERT_LE(recipes().size(), 20U);
  const auto lot = call({"book", "lot", "Daybreak", "--book", book, "--format", "json"});
  EXPECT_EQ(lot.status, 0) << lot.err;
  // 26 hL of A and 14 hL of B, with what the book knows of both: acid went into B alone.
  EXPECT_NE(lot.out.find("acid added"), std::string::npos) << lot.out;
  // What went into it and its ancestors over the season is on the label, and is typed nowhere.
  const auto label =
      call({"run", (season / "18-label.yaml").string(), "--book", book, "--at", "2027-02-17", "--format", "json"});
  EXPECT_LT(label.status, 2) << label.err;
  for (const char* words : {"tartaric acid (E 334)", "potassium metabisulfite (E 224)", "potassium polyaspartate",
                            "gum arabic (E 414)", "protective atmosphere"})
    EXPECT_NE(label.out.find(words), std::string::npos) << words;
}

TEST(Season, EveryFileSaysThatItIsInvented) {
  for (const auto& file : recipes()) {
    const auto text = contents(file);
    EXPECT_NE(text.find("demo data: "), std::string::npos) << file;
    EXPECT_NE(text.find("invented"), std::string::npos) << file;
    EXPECT_EQ(text.find("# Season "), 0U) << file;
  }
}

}  // namespace season_test
