#include "host/page/frame.hpp"
#include "host/page/pages.hpp"
#include "host/plugin/lot.hpp"
#include "host/recipe/lot_name.hpp"
#include "units/nearest.hpp"
#include "units/parse.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>

namespace vatwright {
namespace {

constexpr std::size_t most_lots = 200;  // of one recipe; a table with more is for the command line
constexpr std::string_view lot_column = "the lot's name";

using TableRow = std::vector<std::string>;

// Tabs as a spreadsheet copies them, else semicolons, else commas.
char separator_of(std::string_view head) {
  for (const char c : {'\t', ';', ','})
    if (head.find(c) != std::string_view::npos) return c;
  return '\t';
}

std::string without_quotes(std::string_view cell) {
  cell = trimmed(cell);
  if (cell.size() >= 2 && cell.front() == '"' && cell.back() == '"') cell = cell.substr(1, cell.size() - 2);
  return std::string(trimmed(cell));
}

std::vector<TableRow> rows_of_table(std::string_view text) {
  std::vector<TableRow> rows;
  const char separator = separator_of(text.substr(0, text.find('\n')));
  while (!text.empty()) {
    auto line = text.substr(0, text.find('\n'));
    text.remove_prefix(std::min(text.size(), line.size() + 1));
    if (trimmed(line).empty()) continue;
    TableRow row;
    while (true) {
      const auto cell = line.substr(0, line.find(separator));
      row.push_back(without_quotes(cell));
      if (cell.size() == line.size()) break;
      line.remove_prefix(cell.size() + 1);
    }
    rows.push_back(std::move(row));
  }
  return rows;
}

// What a column's head says: a fact of a lot or the lot's name, and a unit in brackets or behind a comma.
struct TableColumn {
  std::string fact, unit;
};

TableColumn column_of(std::string_view head) {
  const auto bracket = head.find_first_of("[(,");
  TableColumn column;
  const auto name = trimmed(head.substr(0, bracket));
  if (bracket != std::string_view::npos) {
    auto unit = head.substr(bracket + 1);
    while (!unit.empty() && (unit.back() == ']' || unit.back() == ')' || unit.back() == ' ')) unit.remove_suffix(1);
    column.unit = trimmed(unit);
  }
  std::vector<std::string_view> known;
  for (const Input* key : lot::keys) known.push_back(key->name);
  std::string small(name);
  std::transform(small.begin(), small.end(), small.begin(),
                 [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
  for (const auto* word : {"lot", "tank", "vat", "sample", "name"})
    if (small == word) column.fact = lot_column;
  if (column.fact.empty() && !name.empty()) column.fact = nearest(name, known);
  for (const Input* key : lot::keys)
    if (const auto aliases = aliases_of(*key); std::find(aliases.begin(), aliases.end(), small) != aliases.end())
      column.fact = key->name;
  const Input* key = find_lot_key(column.fact);
  if (key != nullptr && key->kind == Kind::quantity && column.unit.empty() && key->unit != "1") column.unit = key->unit;
  if (key != nullptr && key->kind != Kind::quantity) column.unit.clear();
  return column;
}

bool has_decimal_comma(const std::vector<TableRow>& rows) {
  return std::any_of(rows.begin(), rows.end(), [](const TableRow& row) {
    return std::any_of(row.begin(), row.end(), [](const std::string& cell) {
      const auto at = cell.find(',');
      const auto digit = [&](std::size_t i) { return i < cell.size() && cell[i] >= '0' && cell[i] <= '9'; };
      return at != std::string::npos && at > 0 && digit(at - 1) && digit(at + 1);
    });
  });
}

struct Taken {
  Draft draft;
  std::vector<std::string> slips;
};

// A cell with its own unit keeps it.
std::string with_column_unit(const std::string& cell, const std::string& unit, bool decimal_comma) {
  std::string text = cell;
  if (decimal_comma) std::replace(text.begin(), text.end(), ',', '.');
  try {
    if (!unit.empty() && parse(text).bare) return text + " " + unit;
  } catch (const InputError&) {
    return text;  // refused below, in its own words
  }
  return text;
}

Taken take_rows(const std::vector<TableRow>& rows, const std::vector<TableColumn>& columns, bool decimal_comma) {
  Taken out;
  for (std::size_t r = 1; r < rows.size(); ++r) {
    DraftPart lot;
    for (std::size_t c = 0; c < std::min(columns.size(), rows[r].size()); ++c) {
      const auto& cell = rows[r][c];
      if (cell.empty() || columns[c].fact.empty()) continue;
      if (columns[c].fact == lot_column) {
        lot.name = cell;
        continue;
      }
      const Input* key = find_lot_key(columns[c].fact);
      if (key == nullptr) continue;
      Node value =
          text_node_of(key->kind == Kind::quantity ? with_column_unit(cell, columns[c].unit, decimal_comma) : cell);
      if (const auto slip = slip_in(*key, value, nullptr))
        out.slips.push_back(fmt::format("row {}, {}: {}", r + 1, key->name, slip->words()));
      lot.set(key->name, std::move(value));
    }
    try {
      if (lot.name.empty()) throw InputError("the lot has no name", "say which column has the names");
      check_lot_name(lot.name);
      if (out.draft.lot(lot.name) != nullptr)
        throw InputError("lot '" + lot.name + "' is in the table twice", "give each row a name of its own");
    } catch (const InputError& error) {
      out.slips.push_back(fmt::format("row {}: {}: {}", r + 1, error.what(), error.hint()));
    }
    out.draft.lots.push_back(std::move(lot));
  }
  return out;
}

void column_choice(Markup& page, const TableColumn& column, std::size_t number, const std::string& head) {
  page.open("td");
  page.open("select", {{"name", fmt::format("fact|{}", number)}, {"aria-label", "what is in " + head}});
  page.element("option", "leave it out", {{"value", ""}});
  page.element("option", lot_column,
               {{"value", lot_column}, {column.fact == lot_column ? "selected" : "", "selected"}});
  for (const Input* key : lot::keys)
    if (key->kind != Kind::series && key->kind != Kind::amounts)
      page.element("option", label_of(*key),
                   {{"value", key->name}, {column.fact == key->name ? "selected" : "", "selected"}});
  page.close();
  page.close();
  page.open("td");
  page.leaf("input", {{"type", "text"},
                      {"name", fmt::format("unit|{}", number)},
                      {"value", column.unit},
                      {"aria-label", "unit of " + head}});
  page.close();
}

}  // namespace

Response table_page(const Request& request) {
  const Fields& fields = request.fields;
  auto text = fields.get("file").empty() ? fields.get("text") : fields.get("file");
  std::erase(text, '\r');  // browsers and spreadsheets end a line by two characters
  const auto rows = rows_of_table(text);
  if (rows.size() < 2 || rows.size() > most_lots + 1)
    throw BadInput(
        fmt::format("a table of lots has a first row with what was measured, and 1 to {} rows below it; read "
                    "{} rows\n  copy the rows together with their heads",
                    most_lots, rows.size()));
  const bool matched = fields.has("fact|0"), commas = has_decimal_comma(rows);
  std::vector<TableColumn> columns;
  for (std::size_t i = 0; i < rows[0].size(); ++i)
    columns.push_back(matched
                          ? TableColumn{fields.get(fmt::format("fact|{}", i)), fields.get(fmt::format("unit|{}", i))}
                          : column_of(rows[0][i]));
  const auto comma = fields.get("comma");
  std::vector<std::string> slips;
  if (matched && (!commas || !comma.empty())) {
    const Taken taken = take_rows(rows, columns, comma == "decimal");
    if (taken.slips.empty()) return lots_page(taken.draft);
    slips = taken.slips;
  }
  Frame frame("Is this what the table says?", Stage::lot, {});
  Markup& page = frame.page();
  frame.slips(slips, "Something is to be looked at again");
  frame.open_form("/table", "post");
  frame.hidden("text", text);
  if (commas) {
    page.open("fieldset", {{"class", "field"}});
    page.element("legend", "There are commas in the numbers");
    page.open("div", {{"class", "choices"}});
    for (const auto& [value, words] : {std::pair{"decimal", "a comma is a decimal point: 3,42 is 3.42"},
                                       std::pair{"as is", "no: leave the cells as they are"}}) {
      const std::string id = std::string("comma-") + value[0];
      page.open("label", {{"for", id}, {"class", "choice"}});
      page.leaf("input", {{"type", "radio"},
                          {"id", id},
                          {"name", "comma"},
                          {"value", value},
                          {"required", "required"},
                          {comma == value ? "checked" : "", "checked"}});
      page.element("span", words);
      page.close();
    }
    page.close();
    page.close();
  }
  page.open("div", {{"class", "scroll"}, {"role", "region"}, {"tabindex", "0"}, {"aria-label", "columns"}});
  page.open("table", {{"class", "typed-table"}});
  page.open("thead");
  page.open("tr");
  for (const auto* head : {"column", "is", "in", "first rows"}) page.element("th", head, {{"scope", "col"}});
  page.close();
  page.close();
  page.open("tbody");
  constexpr std::size_t shown_rows = 3;
  for (std::size_t i = 0; i < columns.size(); ++i) {
    page.open("tr");
    page.element("th", rows[0][i], {{"scope", "row"}});
    column_choice(page, columns[i], i, rows[0][i]);
    std::string first;
    for (std::size_t r = 1; r < std::min(rows.size(), shown_rows + 1); ++r)
      if (i < rows[r].size()) first += (first.empty() ? "" : " · ") + rows[r][i];
    page.element("td", first);
    page.close();
  }
  page.close();
  page.close();
  page.close();
  page.open("p", {{"class", "buttons"}});
  frame.button(fmt::format("Take {} lots", rows.size() - 1), "first");
  page.close();
  page.close();
  return frame.finish();
}

}  // namespace vatwright
