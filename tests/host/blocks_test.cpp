// What a sheet says is said in blocks, once: every kind of block, and all words of every recipe, reach text and page.
#include "host/sheet/write_blocks.hpp"
#include "host/sheet/writers.hpp"
#include "tests/host/program.hpp"
#include "tests/host/sheets.hpp"

#include <gtest/gtest.h>

#include <regex>

namespace blocks_test {

using namespace vatwright;
using namespace vatwright::test;
namespace b = vatwright::blocks;

// Neither spaces, nor what holds a number and its unit together, nor capitals are words.
std::string bare(std::string text) {
  for (const auto& [mark, sign] : std::vector<std::pair<std::string, std::string>>{{"&lt;", "<"},
                                                                                   {"&gt;", ">"},
                                                                                   {"&quot;", "\""},
                                                                                   {"&#39;", "'"},
                                                                                   {"&amp;", "&"},
                                                                                   {"\u00a0", ""},
                                                                                   {"\u2060", ""}})
    for (auto at = text.find(mark); at != std::string::npos; at = text.find(mark, at))
      text.replace(at, mark.size(), sign), at += sign.size();
  std::string out;
  for (const char c : text)
    if (std::isspace(static_cast<unsigned char>(c)) == 0)
      out += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  return out;
}

std::string untagged(const std::string& page) { return bare(std::regex_replace(page, std::regex("<[^>]*>"), "")); }

constexpr TextStyle one_line{.colour = false, .width = 20000};

// All that a block says, in words.
struct Words {
  std::vector<std::string> all{};

  void operator()(const b::Alarm& a) { add({a.mark, a.words, a.remedy}); }
  void operator()(const b::Task& t) { add({t.amount + t.words, t.rate + t.rate_of, t.remark}); }
  void operator()(const b::Remark& r) { add({r.words}); }
  void operator()(const b::Pointer& p) { add({p.words}); }
  void operator()(const b::Cautions& c) {
    for (const auto& line : c.lines) add({line.words()});
  }
  void operator()(const b::Figures& f) {
    for (const auto& row : f.rows) add({row.name, row.value, row.also});
  }
  void operator()(const b::Table& t) {
    for (const auto& column : t.columns) add({column.name});
    for (const auto& row : t.rows)
      for (const auto& cell : row) add({cell.words});
  }
  void operator()(const b::Picture& /*p*/) {}  // in no text
  void operator()(const b::Swatches& /*s*/) {}
  void operator()(const b::List& l) {
    for (const auto& line : l.lines) add({line.lead, line.words, line.stress, line.source});
  }
  void operator()(const b::Group& g) {
    add({g.heading.words()});
    of(g.blocks);
  }

  void of(const std::vector<b::Block>& blocks) {
    for (const auto& block : blocks) std::visit(*this, block.any());
  }
  void add(const std::vector<std::string>& more) { all.insert(all.end(), more.begin(), more.end()); }
};

Words words_of(const b::Sheet& sheet) {
  Words words;
  words.add({sheet.title, sheet.demo, sheet.verdict, sheet.verdict_remark});
  for (const auto& line : sheet.about) words.add({line.words});
  for (const auto& section : sheet.sections) {
    words.add({section.title.words(), section.about, section.aside});
    words.of(section.blocks);
  }
  return words;
}

void all_stand_in(const Words& words, const std::string& bare_text, const std::string& where) {
  for (const auto& one : words.all)
    EXPECT_NE(bare_text.find(bare(one)), std::string::npos) << "'" << one << "' is not in the " << where;
}

TEST(BlocksTest, AllThatASheetSaysIsInTextAndPage) {
  TestHouse house;
  std::size_t said = 0;
  std::vector<fs::path> recipes;
  for (const auto& entry : fs::directory_iterator(source_dir / "recipes"))
    if (entry.path().extension() == ".yaml") recipes.push_back(entry.path());
  std::sort(recipes.begin(), recipes.end());
  for (std::size_t i = 0; i < recipes.size(); i += 3U * fewer) {
    const fs::path& recipe = recipes[i];
    SCOPED_TRACE(recipe.filename());
    const Worksheet sheet = house.bench().run(read_recipe(Document::open(recipe.string())));
    const Words whole = words_of(b::whole(sheet)), brief = words_of(b::in_short(sheet));
    all_stand_in(whole, bare(write_text(sheet, one_line)), "text");
    all_stand_in(whole, untagged(write_html(sheet)), "page");
    all_stand_in(brief, bare(write_short_text(sheet, one_line)), "short text");
    all_stand_in(brief, untagged(write_short_html(sheet)), "short page");
    said += whole.all.size() + brief.all.size();
  }
  EXPECT_GT(said, 2000U / fewer);
}

// A notion that a sheet never had before is a block in the builder, of a kind that is there: no writer is told of it. A
// kind that is new must be written here and in both writers, or none of them compiles.
TEST(BlocksTest, EveryKindAndLookHasAShapeInBoth) {
  std::vector<b::Block> all{
      b::Alarm{"Beware", "of the first", "mend it so", "A title of its own"},
      b::Alarm{.mark = "Beware", .words = "of the second", .remedy = "and so", .title = {}, .in_a_list = true},
      b::Alarm{"Beware", "of the third"},
      b::Task{.amount = "12 kg", .words = " of it", .rate = "dose 3 g/hL", .rate_of = " of half", .remark = "or so"},
      b::Task{.words = "wait a week"},
      b::Remark{"nothing else", true},
      b::Pointer{"it stands elsewhere"},
      b::Cautions{{{"fr", "H999", "ne pas toucher"}, {{}, {}, "keep away"}}},
      b::Table{b::Table::Of::readings, "label", {{"row", b::Table::Look::words}}, {{{"a cell"}}}},
      b::Swatches{"title", {}},
  };
  using Of = b::Figures::Of;
  for (const auto of : {Of::used, Of::expected, Of::changed, Of::made})
    all.emplace_back(b::Figures{of, "label", {{"name " + std::to_string(static_cast<int>(of)), "17 g", "also so"}}});
  std::get<b::Figures>(all.back()).rows[0].also.clear();  // what is made has nothing beside it
  using Kind = b::List::Of;
  for (const auto of : {Kind::notes, Kind::cautions, Kind::checks, Kind::sequence})
    all.emplace_back(b::List{of, {{.words = "line " + std::to_string(static_cast<int>(of)), .source = "source"}}});
  for (int look = 0; look <= static_cast<int>(b::Group::Look::plain); ++look)
    all.emplace_back(b::Group{static_cast<b::Group::Look>(look),
                              {"Under ", "look " + std::to_string(look)},
                              {b::Remark{"within look " + std::to_string(look)}}});
  Page text(one_line);
  write_blocks(text, all);
  Markup page;
  write_blocks(page, all);
  Words words;
  words.of(all);
  EXPECT_GT(words.all.size(), 40U);
  all_stand_in(words, bare(text.text()), "text");
  all_stand_in(words, untagged(page.document()), "page");
  EXPECT_EQ(page.document().find("<script"), std::string::npos);
}

}  // namespace blocks_test
