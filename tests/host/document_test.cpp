// YAML as a tree in which every node knows its place, columns counted in characters.
#include "host/yaml/document.hpp"

#include <gtest/gtest.h>

#include "host/yaml/sections.hpp"
#include "tests/host/program.hpp"
#include "tests/host/same_tree.hpp"

namespace document_test {

using namespace vatwright;
using namespace vatwright::test;

std::string failure(const Document& doc, Mark mark, const std::string& hint = {}) {
  try {
    doc.fail(mark, "what", hint);
  } catch (const BadInput& error) {
    return error.what();
  }
}

TEST(DocumentTest, KindsOfNodes) {
  const auto doc = Document::read("d", "text: one\nnothing:\nlist: [1, '2']\nmap: {a: b}\n");
  const Node& root = doc.root();
  ASSERT_EQ(root.kind, Node::Kind::map);
  ASSERT_EQ(root.entries.size(), 4U);
  EXPECT_EQ(root.find("text")->kind, Node::Kind::text);
  EXPECT_EQ(root.find("text")->text, "one");
  EXPECT_EQ(root.find("nothing")->kind, Node::Kind::nothing);
  ASSERT_EQ(root.find("list")->kind, Node::Kind::list);
  EXPECT_EQ(root.find("list")->items[1].text, "2");
  EXPECT_TRUE(root.find("list")->items[1].quoted);
  EXPECT_FALSE(root.find("list")->items[0].quoted);
  EXPECT_EQ(root.find("map")->find("a")->text, "b");
  EXPECT_EQ(root.find("absent"), nullptr);
}

TEST(DocumentTest, KeysKeepTheirOrder) {
  const auto doc = Document::read("d", "b: 1\na: 2\nc: 3\n");
  std::string order;
  for (const auto& entry : doc.root().entries) order += entry.key;
  EXPECT_EQ(order, "bac");
}

TEST(DocumentTest, MarksOfKeysAndValues) {
  const auto doc = Document::read("d", "# a comment\nlots:\n  T7: {pH: 3.4}\n");
  const Entry& lots = doc.root().entries.front();
  EXPECT_EQ(lots.mark.line, 2);
  EXPECT_EQ(lots.mark.byte, 0);
  const Entry& lot = lots.value.entries.front();
  EXPECT_EQ(lot.mark.line, 3);
  EXPECT_EQ(lot.mark.byte, 2);
  const Entry& ph = lot.value.entries.front();
  EXPECT_EQ(ph.mark.byte, 7);
  EXPECT_EQ(ph.value.mark.line, 3);
  EXPECT_EQ(ph.value.mark.byte, 11);
}

// Where nothing is written, its key is pointed at, and not what comes lines later.
TEST(DocumentTest, AnEmptyValueIsWhereItsKeyIs) {
  const auto doc = Document::read("d", "lots:\n  pH: 3.4\n  free SO2:\n\n  # a comment\nsteps: [{a: }]\n");
  const Entry& empty = doc.root().entries[0].value.entries[1];
  EXPECT_EQ(empty.value.kind, Node::Kind::nothing);
  EXPECT_EQ(empty.value.mark.line, 3);
  EXPECT_EQ(empty.value.mark.byte, 2);
  const Entry& in_flow = doc.root().entries[1].value.items[0].entries[0];
  EXPECT_EQ(in_flow.value.mark.line, 6);
  EXPECT_EQ(in_flow.value.mark.byte, 9);
}

TEST(DocumentTest, AnAliasIsACopyAtItsOwnPlace) {
  const auto doc = Document::read("d", "a: &x {k: v}\nb: *x\n");
  EXPECT_EQ(doc.root().find("b")->find("k")->text, "v");
  EXPECT_EQ(doc.root().find("b")->mark.line, 2);
  EXPECT_EQ(doc.root().find("b")->mark.byte, 3);
}

TEST(DocumentTest, FailurePointsWithACaret) {
  const auto doc = Document::read("d.yaml", "a: 1\nbc: 23\n");
  EXPECT_EQ(failure(doc, doc.root().find("bc")->mark, "do this"),
            "d.yaml:2:5: what\n"
            "     2 | bc: 23\n"
            "       |     ^\n"
            "  do this");
}

// Two-byte characters (µ, ±, é) before the place count as one column each, and the caret too.
TEST(DocumentTest, ColumnsAreCharactersNotBytes) {
  const std::string line = "µ±é: 3.42";
  const auto doc = Document::read("d", line + "\n");
  EXPECT_EQ(failure(doc, doc.root().find("µ±é")->mark), "d:1:6: what\n     1 | " + line + "\n       |      ^");
}

TEST(DocumentTest, ColumnsAreCharactersInFlowStyleToo) {
  const auto doc = Document::read("d", "T: {pH: 3.42 ± 0.02, conductivity: 1800 µS/cm, here: x}\n");
  EXPECT_EQ(failure(doc, doc.root().find("T")->find("here")->mark).substr(0, 8), "d:1:54: ");
}

TEST(DocumentTest, OffsetIsCountedFromTheText) {
  const auto doc = Document::read("d", "plain: ± abc\nquoted: '± abc'\n");
  for (const auto* key : {"plain", "quoted"}) {
    try {
      doc.fail(*doc.root().find(key), InputError("here", "", std::string("± a").size()), "p: ");
      FAIL();
    } catch (const BadInput& error) {
      const std::string place = std::string(key) == "plain" ? "d:1:11: p: here" : "d:2:13: p: here";
      EXPECT_EQ(std::string(error.what()).substr(0, place.size()), place) << error.what();
    }
  }
}

TEST(DocumentTest, WindowsLineEndsAreNotShown) {
  const auto doc = Document::read("d", "a: 1\r\nb: 2\r\n");
  EXPECT_EQ(doc.root().find("a")->text, "1");
  EXPECT_EQ(failure(doc, doc.root().find("b")->mark).find('\r'), std::string::npos);
}

TEST(DocumentTest, VeryLongLineIsNotShown) {
  const auto doc = Document::read("d", "a: " + std::string(5000, 'x') + "\n");
  EXPECT_LT(failure(doc, doc.root().find("a")->mark).size(), 100U);
}

TEST(DocumentTest, FirstLineCanBeMoved) {
  const auto doc = Document::read("d", "a: 1\nb: 2\n", {}, 40);
  EXPECT_EQ(failure(doc, doc.root().find("b")->mark).substr(0, 8), "d:41:4: ");
  EXPECT_NE(failure(doc, doc.root().find("b")->mark).find("| b: 2"), std::string::npos);
}

// --- sections

void expect_slices_equal_the_whole(const fs::path& file) {
  ReadLimits wide;
  wide.nodes = 100'000;
  const auto whole = Document::open(file, wide);
  const Sections sections(file);
  std::vector<std::string> keys;
  for (const auto& entry : whole.root().entries) keys.push_back(entry.key);
  const auto names = sections.names();
  EXPECT_EQ(std::vector<std::string>(names.begin(), names.end()), keys) << file;
  for (const auto& entry : whole.root().entries) {
    const auto slice = sections.find(entry.key);
    ASSERT_TRUE(slice) << entry.key;
    ASSERT_EQ(slice->root().entries.size(), 1U) << entry.key;
    expect_same(slice->root().entries.front().value, entry.value, file.stem().string() + ": " + entry.key);
  }
}

TEST(SectionsTest, SubstancesAreTheSameSlicedAndWhole) {
  expect_slices_equal_the_whole(source_dir / "host/substances/substances.yaml");
}

TEST(SectionsTest, RulesAreTheSameSlicedAndWhole) {
  int files = 0;
  for (const auto& entry : fs::directory_iterator(source_dir / "host/rules"))
    if (entry.path().extension() == ".yaml") {
      ++files;
      expect_slices_equal_the_whole(entry.path());
    }
  EXPECT_GE(files, 5);
}

TEST(SectionsTest, AFaultInASliceHasItsPlaceInTheFile) {
  const Folder folder;
  const auto file = folder.write("t.yaml", "a: 1\n\n# between\nb:\n  c: [1\n").string();
  const Sections sections(file);
  EXPECT_EQ(sections.find("a")->root().find("a")->text, "1");
  EXPECT_FALSE(sections.find("z"));
  try {
    sections.find("b");
    FAIL() << "an open list was taken";
  } catch (const BadInput& error) {
    EXPECT_EQ(std::string(error.what()).substr(0, file.size() + 1), file + ":") << error.what();
    EXPECT_NE(std::string(error.what()).find(":6:"), std::string::npos) << error.what();
  }
}

}  // namespace document_test
