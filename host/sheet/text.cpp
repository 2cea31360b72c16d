// Blocks as a page of text.
#include "host/sheet/page.hpp"
#include "host/sheet/phrases.hpp"
#include "host/sheet/write_blocks.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace vatwright {
namespace blocks {
namespace {

std::string in_capitals(std::string words) {
  std::transform(words.begin(), words.end(), words.begin(),
                 [](char c) { return c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c; });
  return words;
}

std::string in_capitals(const Heading& heading) { return in_capitals(heading.ours) + heading.theirs; }

std::string in_brackets(const std::string& source) { return source.empty() ? "" : " [" + source + "]"; }

// Each kind of block in its shape. Pictures are left out: what they show stands in figures and tables.
class TextBlocks {
 public:
  explicit TextBlocks(Page& page) : page_(page) {}

  void write(const std::vector<Block>& all) {
    for (const auto& block : all) std::visit(*this, block.any());
  }

  void operator()(const Alarm& alarm) {
    const std::string mark = in_capitals(alarm.mark) + ": ";
    page_.bullet(page_.alarm(mark), alarm.words + (alarm.remedy.empty() ? "" : ". " + alarm.remedy), mark.size());
  }

  void operator()(const Task& task) {
    const auto rate = task.rate.empty() ? "" : fmt::format(" ({}{})", task.rate, task.rate_of);
    page_.bullet("[ ] ", (task.amount.empty() ? task.words : page_.strong(task.amount + task.words)) + rate);
    if (!task.remark.empty()) page_.wrapped("      " + task.remark, 6);
  }

  void operator()(const Remark& remark) { page_.bullet("- ", remark.words); }

  void operator()(const Pointer& pointer) {
    page_.blank();
    page_.wrapped(pointer.words, 0);
  }

  void operator()(const Cautions& cautions) {
    for (const auto& line : cautions.lines) page_.bullet(line.language.empty() ? "! " : "  ", line.words());
  }

  void operator()(const Figures& figures) {
    for (const auto& row : figures.rows) page_.row(row.name, row.value, beside(figures.of, row.also));
  }

  void operator()(const Table& table) {
    const bool to_tick = table.of == Table::Of::tasks;
    std::vector<Page::Head> heads;
    for (const auto& [name, look] : table.columns)
      heads.push_back(
          {name, look == Table::Look::words || look == Table::Look::anything || look == Table::Look::place});
    std::vector<std::vector<std::string>> rows;
    for (const auto& row : table.rows) {
      auto& cells = rows.emplace_back();
      for (const auto& cell : row) cells.push_back(cell.words);
      if (to_tick) cells.front() = fmt::format("[ ] {}. {}", rows.size(), cells.front());
    }
    page_.columns(heads, rows);
  }

  void operator()(const Picture& /*picture*/) {}
  void operator()(const Swatches& /*swatches*/) {}

  void operator()(const List& list) {
    constexpr std::size_t width = 7;  // of what a check says
    for (std::size_t n = 0; n < list.lines.size(); ++n) {
      const auto& line = list.lines[n];
      const auto words = line.words + line.stress + in_brackets(line.source);
      if (list.of == List::Of::checks) {
        const auto mark = fmt::format("{:<{}}", line.lead, width);
        page_.bullet(line.fails ? page_.alarm(mark) : mark, words, width);
      } else {
        page_.bullet(list.of == List::Of::sequence   ? fmt::format("{}. ", n + 1)
                     : list.of == List::Of::cautions ? "! "
                                                     : "- ",
                     line.lead + words);
      }
    }
  }

  void operator()(const Group& group) {
    const auto words = in_capitals(group.heading);
    if (!words.empty() && !group.goes_on) page_.heading(words);
    write(group.blocks);
  }

 private:
  static std::string beside(Figures::Of of, const std::string& also) {
    if (also.empty()) return {};
    return of == Figures::Of::used ? "from " + also : of == Figures::Of::expected ? also : "-> " + also;
  }

  Page& page_;
};

void banner(Page& page, const Sheet& sheet) {
  constexpr std::size_t width = 10;
  page.rule('=');
  page.wrapped(page.strong(sheet.brief ? "CELLAR WORK:" : "CELLAR WORKSHEET:") + " " + sheet.title, 0);
  page.rule('=');
  if (!sheet.demo.empty()) page.wrapped("DEMO DATA: " + sheet.demo, 0);
  for (const auto& [name, words, goes_on] : sheet.about) page.pair(goes_on ? "" : name, words, width);
  const auto verdict = sheet.fails ? page.alarm(sheet.verdict) : sheet.verdict;
  page.pair("checks", verdict + (sheet.verdict_remark.empty() ? "" : ": " + sheet.verdict_remark), width);
}

void title(Page& page, const Section& section) {
  page.blank();
  page.rule('-');
  page.wrapped(page.strong(in_capitals(section.title)) + (section.aside.empty() ? "" : "   (" + section.aside + ")"),
               0);
  if (!section.about.empty()) page.wrapped(section.about, 0);
  page.rule('-');
}

std::string on_paper(const Sheet& sheet, const TextStyle& style) {
  constexpr std::string_view signature =
      "{} by ______________________________   date ____________   signature ________________";
  Page page(style);
  banner(page, sheet);
  for (const auto& section : sheet.sections) {
    if (sheet.brief)
      page.heading(in_capitals(section.title));
    else
      title(page, section);
    write_blocks(page, section.blocks);
  }
  page.blank();
  if (!sheet.brief) page.rule('-');
  page.wrapped(fmt::format(signature, "computed"), 0);
  if (!sheet.brief) page.blank();
  page.wrapped(fmt::format(signature, "verified"), 0);
  page.rule('-');
  page.wrapped(sheet.brief ? fmt::format("{} {}", short_words, sheet_foot) : std::string(sheet_foot), 0);
  return page.text();
}

}  // namespace
}  // namespace blocks

void write_blocks(Page& page, const std::vector<blocks::Block>& all) { blocks::TextBlocks(page).write(all); }

std::string write_text(const Worksheet& sheet, const TextStyle& style) {
  return blocks::on_paper(blocks::whole(sheet), style);
}

std::string write_short_text(const Worksheet& sheet, const TextStyle& style) {
  return blocks::on_paper(blocks::in_short(sheet), style);
}

}  // namespace vatwright
