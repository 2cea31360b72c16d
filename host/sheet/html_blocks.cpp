// Blocks in HTML.
#include "host/sheet/chart.hpp"
#include "host/sheet/html_page.hpp"
#include "host/sheet/write_blocks.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cctype>

namespace vatwright {
namespace blocks {
namespace {

// A table of more columns, or of more that hold words, becomes a list of cards on a telephone.
constexpr std::ptrdiff_t most_on_a_telephone = 4, most_of_words = 2;

// By Table::Look.
constexpr std::array<std::string_view, 6> of_column{"words", "number", "", "figure", "", "wide lot"};

std::string_view class_of(const Table& table) {
  if (table.of != Table::Of::readings) return "list cards";
  const auto& columns = table.columns;
  const auto words =
      std::count_if(columns.begin(), columns.end(), [](const auto& c) { return c.look == Table::Look::words; });
  return std::ssize(columns) > most_on_a_telephone || words > most_of_words ? "readings cards" : "readings";
}

// By Figures::Of: the class of the table, and its heads.
struct FiguresLook {
  std::string_view of_table;
  std::array<std::string_view, 3> heads;
};
constexpr std::array<FiguresLook, 4> of_figures{{{"plain used", {"Number", "Value", "From"}},
                                                 {"plain expect", {"Figure", "Value"}},
                                                 {"plain lot-table", {"Analysis", "Before", "After"}},
                                                 {"plain lot-table", {"Analysis", "After"}}}};

// By Group::Look: whether it has a box, its class, and the rank of its heading.
struct Box {
  bool drawn;
  std::string_view of, rank;
};
constexpr std::array<Box, 7> of_group{{{true, "to-do", "h3"},
                                       {true, "with-care", "h3"},
                                       {true, "care", "h3"},
                                       {true, "", "h4"},
                                       {true, "figures", "h3"},
                                       {true, "", "h3"},
                                       {false, "", "h3"}}};

template <class Of, class Enum>
const auto& shape(const Of& all, Enum one) {
  return all.at(static_cast<std::size_t>(one));
}

class HtmlBlocks {
 public:
  HtmlBlocks(Markup& page, const std::string& section) : page_(page), section_(section) {}

  void write(const std::vector<Block>& all) {
    for (const auto& block : all) std::visit(*this, block.any());
  }

  void operator()(const Alarm& alarm) {
    if (!alarm.title.empty()) return in_a_box(alarm);
    const auto words = alarm.words + (alarm.remedy.empty() ? "" : ". " + alarm.remedy);
    if (alarm.in_a_list) return page_.element("p", alarm.mark + ": " + words, {{"class", "fault"}});
    page_.open("p", {{"class", "verdict fails"}});
    page_.element("strong", alarm.mark + ": ");
    page_.text(words);
    page_.close();
  }

  void operator()(const Task& task) {
    page_.open("label", {{"class", "dose"}});
    page_.leaf("input", {{"type", "checkbox"}});
    page_.open("span");
    if (!task.amount.empty()) page_.element("strong", task.amount, {{"class", "amount"}});
    page_.text(task.words);
    if (!task.rate.empty()) {
      page_.text(" ");
      page_.element("span", fmt::format("({}{})", task.rate, task.rate_of),
                    {{"class", task.rate_of.empty() ? "rate" : ""}});
    }
    page_.close();
    page_.close();
    if (!task.remark.empty()) page_.element("p", task.remark);
  }

  void operator()(const Remark& remark) {
    page_.element("p", remark.alone ? with_a_capital(remark.words) : remark.words);
  }

  void operator()(const Pointer& pointer) { page_.element("p", pointer.words, {{"class", "fault"}}); }

  void operator()(const Cautions& cautions) {
    page_.open("ul", {{"class", "cautions"}});
    for (const auto& line : cautions.lines) {
      page_.open("li");
      if (!line.language.empty()) page_.text(line.language + ": ");
      if (!line.code.empty()) page_.element("b", line.code);
      if (!line.code.empty()) page_.text(" ");
      if (line.language.empty())
        page_.text(line.text);
      else
        page_.element("span", line.text, {{"lang", line.in_english ? "en" : std::string_view(line.language)}});
      page_.close();
    }
    page_.close();
  }

  void operator()(const Figures& figures) {
    const auto& [of_table, heads] = shape(of_figures, figures.of);
    open_table(figures.label, of_table);
    for (const auto head : heads)
      if (!head.empty()) page_.element("th", head, {{"scope", "col"}});
    begin_rows();
    for (const auto& row : figures.rows) figure(figures.of, row);
    close_table();
  }

  void operator()(const Table& table) {
    open_table(table.label, class_of(table));
    const bool readings = table.of == Table::Of::readings, to_tick = table.of == Table::Of::tasks;
    for (const auto& column : table.columns)
      page_.element("th", to_tick ? with_a_capital(column.name) : column.name,
                    {{"scope", "col"}, {readings ? "class" : "", shape(of_column, column.look)}});
    begin_rows();
    for (const auto& row : table.rows) {
      page_.open("tr");
      page_.open("th", {{"scope", "row"}});
      if (to_tick) page_.open("label");
      if (to_tick) page_.leaf("input", {{"type", "checkbox"}});
      page_.text((to_tick ? " " : "") + row.front().words);
      if (to_tick) page_.close();
      page_.close();
      for (std::size_t i = 1; i < row.size(); ++i) cell(table.columns[i], row[i]);
      page_.close();
    }
    close_table();
  }

  void operator()(const Picture& picture) { write_chart(page_, *picture.chart, picture.id); }

  void operator()(const Swatches& swatches) {
    page_.element("h3", swatches.title);
    page_.open("div", {{"class", "swatches"}});
    for (const auto& s : swatches.all) {
      const std::string code = fmt::format("#{:02x}{:02x}{:02x}", s.red, s.green, s.blue);
      page_.open("figure", {{"class", "swatch"}});
      page_.open("div", {{"role", "img"}, {"aria-label", s.name + ", " + code}, {"style", "background:" + code}});
      page_.close();
      page_.open("figcaption");
      page_.text(s.name);
      page_.element("small", code);
      page_.close();
      page_.close();
    }
    page_.close();
  }

  void operator()(const List& list) {
    const bool checks = list.of == List::Of::checks;
    if (list.lines.empty()) return;
    page_.open(list.of == List::Of::sequence ? "ol" : "ul", {{checks ? "class" : "", "checks"}});
    for (const auto& line : list.lines) {
      page_.open("li");
      if (checks) page_.element("b", line.lead, {{"class", line.fails ? "mark fails" : "mark holds"}});
      if (checks) page_.open("span");
      if (!checks && !line.lead.empty()) page_.element("strong", line.lead);
      page_.text(line.words);
      if (!line.stress.empty()) page_.element("strong", line.stress);
      if (!line.source.empty()) page_.element("small", line.source);
      if (checks) page_.close();
      page_.close();
    }
    page_.close();
  }

  // Side by side stand its parts; what is no part wants the width of the page, and stands below.
  void operator()(const Group& group) {
    const auto& [drawn, of, rank] = shape(of_group, group.look);
    const auto heading = group.heading.words();
    const bool beside = group.look == Group::Look::side_by_side;
    if (drawn) page_.open("div", {{of.empty() ? "" : "class", of}});
    if (!heading.empty()) page_.element(rank, heading);
    for (const auto& block : group.blocks)
      if (!beside || is_part(block)) std::visit(*this, block.any());
    if (drawn) page_.close();
    for (const auto& block : group.blocks)
      if (beside && !is_part(block)) std::visit(*this, block.any());
  }

 private:
  void in_a_box(const Alarm& alarm) {
    page_.open("div", {{"class", "failing"}});
    page_.element("h3", alarm.title);
    page_.open("p");
    page_.element("strong", alarm.words);
    page_.close();
    if (!alarm.remedy.empty()) page_.element("p", alarm.remedy);
    page_.close();
  }

  static bool is_part(const Block& block) {
    const auto* inner = std::get_if<Group>(&block.any());
    return inner != nullptr && inner->look == Group::Look::part;
  }

  // A table that is wider than the page scrolls within its box, also by keyboard.
  void open_table(std::string_view label, std::string_view kind) {
    const auto title = section_ + "-title";
    page_.open("div", {{"class", "scroll"},
                       {"role", "region"},
                       {"tabindex", "0"},
                       {label.empty() ? "aria-labelledby" : "aria-label", label.empty() ? title : label}});
    page_.open("table", {{"class", kind}});
    page_.open("thead");
    page_.open("tr");
  }

  void begin_rows() {
    page_.close();
    page_.close();
    page_.open("tbody");
  }

  void close_table() {
    page_.close();
    page_.close();
    page_.close();
  }

  void figure(Figures::Of of, const Figures::Row& row) {
    page_.open("tr");
    page_.open("th", {{"scope", "row"}});
    page_.text(row.name);
    if (of == Figures::Of::expected) page_.element("small", row.also);
    page_.close();
    page_.element("td", row.value, {{of == Figures::Of::expected ? "class" : "", "figure"}});
    if (of == Figures::Of::used) page_.element("td", row.also, {{"class", "aside"}});
    if (of == Figures::Of::changed)
      page_.element("td", row.also.empty() ? "the same" : row.also, {{"class", row.also.empty() ? "aside" : "figure"}});
    page_.close();
  }

  void cell(const Table::Column& column, const Table::Cell& cell) {
    const auto kind = shape(of_column, column.look);
    if (!cell.share)
      return page_.element("td", cell.words, {{kind.empty() ? "" : "class", kind}, {"data-head", column.name}});
    page_.element("td", cell.words,
                  {{"class", "number share"},
                   {"data-head", column.name},
                   {"style", fmt::format("--share:{:.1f}%", std::clamp(100 * *cell.share, 0.0, 100.0))}});
  }

  Markup& page_;
  std::string section_;
};

}  // namespace
}  // namespace blocks

void write_blocks(Markup& page, const std::vector<blocks::Block>& all, const std::string& section) {
  blocks::HtmlBlocks(page, section).write(all);
}

}  // namespace vatwright
