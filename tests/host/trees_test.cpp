// Entries of a table that were read when it was installed: the same as YAML gives, or else YAML gives them.
#include "host/yaml/trees.hpp"

#include <gtest/gtest.h>

#include <random>

#include "host/files/checksum.hpp"
#include "host/yaml/sections.hpp"
#include "host/yaml/tree_text.hpp"
#include "tests/host/program.hpp"
#include "tests/host/same_tree.hpp"

namespace trees_test {

using namespace vatwright;
using namespace vatwright::test;

// Anything that a tree may be.
class Grower {
 public:
  explicit Grower(unsigned seed) : random_(seed) {}

  Node node(int depth) {
    Node out;
    out.mark = mark();
    switch (below(depth > 0 ? 4 : 2)) {
      case 0:
        break;
      case 1:
        out.kind = Node::Kind::text;
        out.quoted = below(2) == 1;
        out.text = words();
        break;
      case 2:
        out.kind = Node::Kind::list;
        for (int i = below(5); i > 0; --i) out.items.push_back(node(depth - 1));
        break;
      default:
        out.kind = Node::Kind::map;
        for (int i = below(5); i > 0; --i) out.entries.push_back({words(), mark(), node(depth - 1)});
    }
    return out;
  }
  int below(int count) { return std::uniform_int_distribution<int>(0, count - 1)(random_); }

 private:
  Mark mark() { return {1 + below(5000), below(200)}; }
  std::string words() {
    const std::vector<std::string> some{"", "g/L", "1 0 3:", "{[~'\"", "at most 200 mg/L", "é °Brix", "\n", " 7"};
    std::string out;
    for (int i = below(4); i > 0; --i) out += some[static_cast<std::size_t>(below(static_cast<int>(some.size())))];
    return out;
  }
  std::mt19937 random_;
};

void shift(Node& node, int lines) {
  node.mark.line += lines;
  for (auto& item : node.items) shift(item, lines);
  for (auto& entry : node.entries) {
    entry.mark.line += lines;
    shift(entry.value, lines);
  }
}

TEST(TreesTest, ATreeComesBackFromItsTextAsItWas) {
  Grower grower(20261129);
  for (int i = 0; i < 2000; ++i) {
    Node tree = grower.node(6);
    const auto back = tree_of_text(text_of_tree(tree), 1 + i);
    ASSERT_TRUE(back) << text_of_tree(tree);
    shift(tree, i);
    expect_same(*back, tree, "tree " + std::to_string(i));
    if (::testing::Test::HasFailure()) return;
  }
}

// Whatever it is given, it gives a tree or nothing, and never one that it would not write so.
TEST(TreesTest, WhatWasNotWrittenByUsIsNoTree) {
  Grower grower(7);
  for (int i = 0; i < 3000; ++i) {
    std::string text = text_of_tree(grower.node(5));
    for (int spoilt = 1 + grower.below(3); spoilt > 0; --spoilt) {
      const auto at = static_cast<std::size_t>(grower.below(static_cast<int>(text.size())));
      text[at] = "0129 :'\"~[{x"[static_cast<std::size_t>(grower.below(12))];
      if (grower.below(3) == 0) text.resize(at + 1);
    }
    const auto tree = tree_of_text(text, 1);
    EXPECT_TRUE(!tree || tree_of_text(text_of_tree(*tree), 1)) << text;
  }
  for (const char* text : {"", "~", "~1 0 0", "~0 0 0:", "~1 -1 0:", "'1 0 9:few", "'1 0 2:more", "[1 0 2:~1 0 0:",
                           "{1 0 1:[1 0 0:~1 0 0:", "'1 0 -1:", "'1 0 99999999999999999999:a", "~99999999 0 0:"})
    EXPECT_FALSE(tree_of_text(text, 1)) << text;
}

TEST(TreesTest, NoTreeIsDeeperThanOneOfYaml) {
  std::string text;
  for (int i = 0; i < 100'000; ++i) text += "[1 0 1:";
  EXPECT_FALSE(tree_of_text(text + "~1 0 0:", 1));
}

// Every table of the build tree that has its trees beside it.
TEST(TreesTest, EveryEntryOfOurTablesIsWhatYamlGives) {
  const auto share = build_dir / "share/vatwright";
  int entries = 0;
  for (const auto& found : fs::recursive_directory_iterator(share)) {
    if (found.path().extension() != ".trees") continue;
    const auto table = fs::path(found.path()).replace_extension(".yaml");
    const Document whole = Document::open(table, {.nodes = 100'000});
    const auto slices = Trees(table).slices(checksum_of(whole.text()));
    ASSERT_EQ(slices.size(), whole.root().entries.size()) << table;
    for (const auto& entry : whole.root().entries) {
      const Slice& slice = slices[static_cast<std::size_t>(&entry - whole.root().entries.data())];
      EXPECT_EQ(slice.name, entry.key) << table;
      const auto written = whole.text().substr(slice.begin, slice.end - slice.begin);
      const auto tree = Trees(table).find(slice, written);
      ASSERT_TRUE(tree) << table << ": " << entry.key;
      expect_same(tree->entries.front().value, entry.value, table.stem().string() + ": " + entry.key);
      ++entries;
    }
  }
  EXPECT_GT(entries, 200);
}

// A table as a house has it, and its trees as they were when it was installed.
class TableTest : public ::testing::Test {
 protected:
  const Folder folder;
  const fs::path table = folder.write("limits.yaml", text);
  static constexpr char text[] = "free SO2:\n  at most: 45 mg/L\ntotal SO2:\n  at most: 200 mg/L\n";

  std::string figure(const char* entry) const {
    const auto doc = Sections(table).find(entry);
    return doc->root().find(entry)->find("at most")->text;
  }
  void install() const { Sections(table).write_trees(); }
  std::string trees() const { return read_file(trees_of(table), 1 << 20); }
};

TEST_F(TableTest, AnEntryThatWasChangedSinceIsRead) {
  install();
  const std::string before = trees();
  folder.write("limits.yaml", "# a line more\nfree SO2:\n  at most: 45 mg/L\ntotal SO2:\n  at most: 150 mg/L\n");
  EXPECT_EQ(figure("total SO2"), "150 mg/L");
  EXPECT_EQ(figure("free SO2"), "45 mg/L");
  EXPECT_EQ(Sections(table).find("free SO2")->root().find("free SO2")->mark.line, 3);
  EXPECT_EQ(trees(), before);
}

// Of the same size, at the same time, and in the name of an entry: nothing but the bytes tells of it.
TEST_F(TableTest, AChangeThatLeavesSizeAndTimeIsNoticed) {
  install();
  const auto time = fs::last_write_time(table);
  std::string changed = text;
  changed.replace(changed.find("total SO2"), 9, "bound SO2");
  folder.write("limits.yaml", changed);
  fs::last_write_time(table, time);
  EXPECT_FALSE(Sections(table).find("total SO2"));
  EXPECT_EQ(figure("bound SO2"), "200 mg/L");
  EXPECT_EQ(Sections(table).names(), (std::vector<std::string_view>{"free SO2", "bound SO2"}));
}

TEST_F(TableTest, WithoutTreesTheTableIsReadAllTheSame) {
  install();
  fs::remove(trees_of(table));
  EXPECT_EQ(figure("total SO2"), "200 mg/L");
  EXPECT_EQ(Sections(table).text(), text);
}

TEST_F(TableTest, ItsTextAndItsSumAreThoseOfTheFile) {
  install();
  const Sections sections(table);
  EXPECT_EQ(sections.text(), text);
  EXPECT_EQ(sections.sum().sha256(), sha256_of(text));
}

// A program that stays, such as the page, has read the one table: another one beside it is not mixed in.
TEST_F(TableTest, ATableThatIsReplacedIsReadAsItWas) {
  install();
  const Sections sections(table);
  folder.write("new.yaml", "free SO2:\n  at most: 99 mg/L\ntotal SO2:\n  at most: 999 mg/L\n");
  fs::rename(folder.path() / "new.yaml", table);
  EXPECT_EQ(sections.find("total SO2")->root().find("total SO2")->find("at most")->text, "200 mg/L");
  EXPECT_EQ(sections.text(), text);
}

TEST_F(TableTest, ATableThatIsWrittenOverWhileItIsInUseIsNotBelieved) {
  install();
  const Sections sections(table);
  std::string changed = text;
  changed.replace(changed.find("200"), 3, "999");
  folder.write("limits.yaml", changed);
  EXPECT_EQ(sections.find("free SO2")->root().find("free SO2")->find("at most")->text, "45 mg/L");
  EXPECT_THROW(sections.find("total SO2"), BadInput);
  EXPECT_THROW(sections.text(), BadInput);
}

// A figure of a law that a worn disk changes must not be believed.
TEST_F(TableTest, ATreeThatWasDamagedIsNotBelieved) {
  install();
  const std::string whole = trees();
  for (std::size_t at = 0; at < whole.size(); ++at) {
    std::string damaged = whole;
    damaged[at] = damaged[at] == '7' ? '8' : '7';
    folder.write("limits.trees", damaged);
    EXPECT_EQ(figure("total SO2"), "200 mg/L") << "byte " << at;
    EXPECT_EQ(figure("free SO2"), "45 mg/L") << "byte " << at;
  }
  folder.write("limits.trees", whole.substr(0, whole.size() / 2));
  EXPECT_EQ(figure("total SO2"), "200 mg/L");
}

// That trees are used where they fit: one that says something else than its table, under the right sum.
TEST_F(TableTest, ATreeThatFitsIsTaken) {
  const Document other = Document::read("other", "total SO2:\n  at most: 199 mg/L\n");
  const std::string_view all = text, entry = all.substr(all.find("total SO2"));
  TreesWriter trees;
  trees.add({"free SO2", 0, all.size() - entry.size(), 1}, all.substr(0, all.size() - entry.size()), nullptr);
  trees.add({"total SO2", all.size() - entry.size(), all.size(), 3}, entry, &other.root());
  folder.write("limits.trees", trees.text(checksum_of(all)));
  EXPECT_EQ(figure("total SO2"), "199 mg/L");
  EXPECT_EQ(figure("free SO2"), "45 mg/L");
}

// Its contents are longer than what is read at once.
TEST_F(TableTest, ALongTableIsReadByItsContentsToo) {
  std::string many;
  for (int i = 0; i < 1000; ++i)
    many += "limit " + std::to_string(i) + ":\n  at most: " + std::to_string(i) + " mg/L\n";
  folder.write("limits.yaml", many);
  install();
  const auto slices = Trees(table).slices(checksum_of(many));
  ASSERT_EQ(slices.size(), 1000U);
  EXPECT_EQ(slices.back().name, "limit 999");
  EXPECT_TRUE(Trees(table).find(slices.back(), many.substr(slices.back().begin)));
  EXPECT_EQ(figure("limit 0"), "0 mg/L");
  EXPECT_EQ(figure("limit 999"), "999 mg/L");
  EXPECT_TRUE(Trees(table).slices(checksum_of(many + " ")).empty());
}

TEST_F(TableTest, AnEntryThatIsNotInOrderIsToldOfAsBefore) {
  folder.write("limits.yaml", std::string(text) + "broken:\n  a: [1\n");
  install();
  EXPECT_EQ(figure("total SO2"), "200 mg/L");
  EXPECT_THROW(Sections(table).find("broken"), BadInput);
}

}  // namespace trees_test
