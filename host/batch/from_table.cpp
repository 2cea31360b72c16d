#include "host/batch/from_table.hpp"

#include "host/batch/csv.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <string>
#include <vector>

namespace vatwright {
namespace {

void find_places(const Node& node, std::vector<Mark>& places) {
  if (node.kind == Node::Kind::text && node.text == from_table && !node.quoted) places.push_back(node.mark);
  for (const auto& item : node.items) find_places(item, places);
  for (const auto& entry : node.entries) find_places(entry.value, places);
}

std::size_t offset_of(const std::string& text, Mark mark) {
  std::size_t at = 0;
  for (int line = 1; line < mark.line; ++line) at = text.find('\n', at) + 1;
  return at + static_cast<std::size_t>(mark.byte);
}

std::string trimmed_cell(std::string text) {
  text.erase(0, text.find_first_not_of(' '));
  text.erase(text.find_last_not_of(' ') + 1);
  return text;
}

std::string yaml_quoted(const std::string& text) {
  std::string out = "\"";
  for (const char c : text) {
    if (c == '"' || c == '\\') out += '\\';
    out += c == '\n' || c == '\r' || c == '\t' ? ' ' : c;
  }
  return out + '"';
}

struct TableHead {
  std::string name, unit;
};

TableHead head_in(const std::string& cell) {
  const auto open = cell.find('[');
  if (open == std::string::npos || !cell.ends_with(']')) return {cell, {}};
  return {trimmed_cell(cell.substr(0, open)), cell.substr(open + 1, cell.size() - open - 2)};
}

class TableText {
 public:
  explicit TableText(const std::filesystem::path& table) : name_(table.string()), reader_(table) {}

  // The rows as a list of YAML, in lines that begin with `indent`.
  std::string rows(const std::string& indent) {
    read_heads();
    std::string text = "[";
    int count = 0;
    for (CsvRow row; reader_.next(row);) {
      const std::string entries = entries_of(row);
      if (entries.empty()) continue;  // as a spreadsheet leaves it below its last row
      text += fmt::format("{}{{{}}}", count++ == 0 ? "" : ",\n" + indent, entries);
    }
    if (count == 0) throw BadInput(name_ + ": the table has no rows\n  write a head, and a row for each reading");
    return text + "]";
  }

 private:
  void read_heads() {
    CsvRow head;
    if (!reader_.next(head))
      throw BadInput(name_ +
                     ": the table is empty\n  write a head, such as 'tank,date,density [kg/m³]', and a row "
                     "for each reading");
    for (auto& cell : head.cells) heads_.push_back(head_in(trimmed_cell(std::move(cell))));
  }

  std::string entries_of(const CsvRow& row) const {
    if (row.cells.size() != heads_.size())
      throw BadInput(
          fmt::format("{}, row {}: {} cells, expected {} as in the head\n  a comma inside a cell wants "
                      "quotes around the cell; numbers use a point",
                      name_, row.line, row.cells.size(), heads_.size()));
    std::string text;
    for (std::size_t i = 0; i < heads_.size(); ++i) {
      const std::string cell = trimmed_cell(row.cells[i]);
      if (cell.empty()) continue;
      const auto& [name, unit] = heads_[i];
      text += fmt::format("{}{}: {}", text.empty() ? "" : ", ", yaml_quoted(name),
                          yaml_quoted(unit.empty() ? cell : fmt::format("{} {}", cell, unit)));
    }
    return text;
  }

  std::string name_;
  CsvReader reader_;
  std::vector<TableHead> heads_;
};

}  // namespace

std::optional<Document> with_readings(const Document& recipe, const std::filesystem::path& table) {
  std::vector<Mark> places;
  if (const Node* steps = recipe.root().find("steps")) find_places(*steps, places);
  if (places.empty()) return std::nullopt;
  if (places.size() > 1)
    recipe.fail(places[1], "a second '" + std::string(from_table) + "': there is one table",
                "give a recipe for each table");
  const Mark place = places.front();
  std::string text = recipe.text();
  // Further in than the key that it belongs to, as YAML wants it.
  const std::string indent(static_cast<std::size_t>(place.byte) + 1, ' ');
  text.replace(offset_of(text, place), from_table.size(), TableText(table).rows(indent));
  return Document::read(recipe.name() + " with " + table.filename().string(), std::move(text));
}

}  // namespace vatwright
