#include "host/batch/columns.hpp"

#include "host/recipe/allowed.hpp"
#include "host/recipe/lot_name.hpp"
#include "host/recipe/quantity.hpp"
#include "units/nearest.hpp"
#include "units/no_figure.hpp"
#include "units/parse.hpp"
#include "units/spaces.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

namespace vatwright {
namespace {

constexpr std::string_view lot_head = "lot";

class HeadReader {
 public:
  HeadReader(const std::string& file, const CsvRow& head, const Basis* acid_basis, const Carry& carry,
             bool units_in_cells)
      : file_(file), head_(head), acid_basis_(acid_basis), carry_(carry), units_in_cells_(units_in_cells) {}

  std::vector<LotColumn> read() const {
    refuse_other_separator();
    refuse_missing_carried();
    std::vector<LotColumn> columns;
    for (const auto& cell : head_.cells) {
      columns.push_back(column(cell));
      for (std::size_t i = 0; i + 1 < columns.size() && !columns.back().carried; ++i)
        if (columns[i].key == columns.back().key && !columns[i].carried)
          fail("the column '" + cell + "' is there twice", "keep one of the two");
    }
    if (std::none_of(columns.begin(), columns.end(), [](const LotColumn& c) { return c.names_the_lot(); }))
      fail("no column 'lot', which names the lot of a row",
           "the first row is the head, such as 'lot,pH,free SO2 [mg/L]': add the column 'lot'");
    return columns;
  }

 private:
  [[noreturn]] void fail(const std::string& what, const std::string& hint) const {
    throw BadInput(fmt::format("{}, row {}: {}\n  {}", file_, head_.line, what, hint));
  }

  void refuse_missing_carried() const {
    const std::vector<std::string_view> there(head_.cells.begin(), head_.cells.end());
    for (const auto& head : carry_.heads)
      if (std::find(there.begin(), there.end(), head) == there.end())
        fail("no column " + in_quotes(head) + " to carry along",
             did_you_mean(head, there, fmt::format("its head is: {}", fmt::join(there, ", "))));
  }

  // The whole head in one cell: a spreadsheet of a country that writes a decimal comma.
  void refuse_other_separator() const {
    if (head_.cells.size() != 1) return;
    for (const auto& [separator, said] : {std::pair{';', "';'"}, std::pair{'\t', "a tab"}})
      if (head_.cells[0].find(separator) != std::string::npos)
        fail(fmt::format("the cells are separated by {}, expected ','", said),
             "save the table with commas between the cells, and points in the numbers");
  }

  LotColumn column(const std::string& cell) const {
    if (std::find(carry_.heads.begin(), carry_.heads.end(), cell) != carry_.heads.end())
      return {.key = nullptr, .head = cell, .carried = true};
    const auto open = cell.find('[');
    const auto name = without_outer_spaces(std::string_view(cell).substr(0, open));
    LotColumn column{.key = find_lot_key(name), .head = cell};
    if (name == lot_head) return column;
    if (column.key == nullptr) {
      column.carried = carry_.all && !looks_like_a_slip(cell);
      if (column.carried) return column;
      if (open == std::string::npos && cell.ends_with(')')) refuse_round_brackets(cell);
      unknown(name);
    }
    if (open != std::string::npos) {
      if (!cell.ends_with(']'))
        fail("the unit of '" + cell + "' has no ']' at its end", "write such as 'free SO2 [mg/L]'");
      column.unit = cell.substr(open + 1, cell.size() - open - 2);
    }
    check(column);
    return column;
  }

  // A reading that is carried along would not be read: "fre SO2", "Free SO2 (mg/L)".
  static bool looks_like_a_slip(std::string_view cell) {
    return !nearest(without_outer_spaces(cell.substr(0, cell.find_first_of("[("))), known_heads()).empty();
  }

  static std::vector<std::string_view> known_heads() {
    std::vector<std::string_view> known{lot_head};
    for (const Input* key : lot::keys) known.push_back(key->name);
    return known;
  }

  [[noreturn]] void unknown(std::string_view name) const {
    const auto known = known_heads();
    fail("unknown column " + in_quotes(name),
         did_you_mean(name, known,
                      fmt::format("the first row is the head; a table has {}; to carry what no lot has along, add "
                                  "'--carry all'",
                                  fmt::join(known, ", "))));
  }

  // "Free SO2 (mg/L)"
  [[noreturn]] void refuse_round_brackets(const std::string& cell) const {
    const auto open = std::min(cell.find('('), cell.size() - 1);
    const auto name = without_outer_spaces(std::string_view(cell).substr(0, open));
    const auto close = nearest(name, known_heads());
    fail("unknown column " + in_quotes(cell),
         fmt::format("a unit stands in square brackets: '{} [{}]'", close.empty() ? name : close,
                     cell.substr(open + 1, cell.size() - open - 2)));
  }

  void check(const LotColumn& column) const {
    const Input& key = *column.key;
    if (key.kind == Kind::series || key.kind == Kind::amounts)
      fail("'" + std::string(key.name) + "' is a map, which no cell can hold",
           "say it once of the recipe's lot, for all rows");
    if (key.kind != Kind::quantity) {
      if (!column.unit.empty())
        fail("'" + std::string(key.name) + "' has no unit", "leave out what stands in brackets");
      return;
    }
    const std::string example = "write such as '" + std::string(key.name) + " [" + std::string(key.unit) + "]'";
    // What may stand without its unit in a recipe may do so here.
    if (column.unit.empty() && key.dimension != dimension_of<Ph>() && !units_in_cells_)
      fail("no unit in '" + column.head + "'", example);
    if (column.unit.empty()) return;
    const auto dimension_of_unit = [&] {
      try {
        return parse_unit(column.unit).dimension;
      } catch (const InputError& error) {
        fail("'" + column.head + "': " + error.what(), error.hint());
      }
    }();
    if (dimension_of_unit == key.dimension) return;
    if (key.dimension == dimension_of<Acidity>() && dimension_of_unit == dimension_of<MassConcentration>()) {
      if (basis_of(key, acid_basis_) != nullptr) return;
      fail("'" + column.head + "' does not say which acid it is counted as",
           "write such as '" + std::string(key.name) + " [" + column.unit +
               " as tartaric acid]', or state 'acid basis: tartaric acid' in the recipe");
    }
    fail("'" + column.unit + "' is no unit of " + std::string(key.name), example);
  }

  const std::string& file_;
  const CsvRow& head_;
  const Basis* acid_basis_;
  const Carry& carry_;
  bool units_in_cells_;
};

Value quantity(const LotColumn& column, const std::string& cell, const Basis* acid_basis) {
  const Input& key = *column.key;
  if (cell.find_first_of("0123456789") == std::string::npos)
    throw InputError("'" + cell + "' is no number",
                     "leave the cell empty where nothing was measured; " + std::string(below_detection));
  const auto own_unit = unit_of(cell);
  // A second number, or a '(k=2)' of nothing, is refused below.
  const bool has_unit = !own_unit.empty() && own_unit.find_first_of("0123456789(") != 0;
  if (!column.unit.empty() && has_unit)
    throw InputError("'" + cell + "' has a unit, and so has the head", "write the number alone, in " + column.unit);
  const std::string text = column.unit.empty() ? cell : cell + " " + column.unit;
  return quantity_of(text, key, acid_basis);
}

Value word(const LotColumn& column, const std::string& cell) {
  Value value;
  if (column.key->kind == Kind::shares) {
    value.shares.emplace_back(cell, 1.0);
    return value;
  }
  refuse_unknown_word(*column.key, cell);
  value.word = cell;
  return value;
}

void refuse_other_width(const std::vector<LotColumn>& columns, const CsvRow& row) {
  const std::size_t here = row.cells.size(), due = columns.size();
  if (here == due) return;
  const std::string amiss = here < due ? fmt::format("the cell for '{}' is missing", columns[here].head)
                                       : fmt::format("a cell '{}' after the last column", row.cells[due]);
  throw InputError(fmt::format("row {}: {}: {} cells, expected {} as in the head", row.line, amiss, here, due),
                   "a comma inside a cell wants quotes around the cell; numbers use a point");
}

}  // namespace

std::string name_in(const std::vector<LotColumn>& columns, const CsvRow& row) {
  for (std::size_t i = 0; i < std::min(columns.size(), row.cells.size()); ++i)
    if (columns[i].names_the_lot()) return std::string(without_outer_spaces(row.cells[i]));
  return {};
}

std::vector<LotColumn> read_columns(const std::string& file, const CsvRow& head, const Basis* acid_basis,
                                    const Carry& carry, bool units_in_cells) {
  return HeadReader(file, head, acid_basis, carry, units_in_cells).read();
}

std::vector<std::string> carried_in(const std::vector<LotColumn>& columns, const CsvRow& row) {
  std::vector<std::string> carried;
  for (std::size_t i = 0; i < columns.size(); ++i)
    if (columns[i].carried) carried.push_back(i < row.cells.size() ? row.cells[i] : std::string());
  return carried;
}

RowLot read_row(const std::vector<LotColumn>& columns, const CsvRow& row, const Basis* acid_basis) {
  refuse_other_width(columns, row);
  RowLot lot{name_in(columns, row), {}};
  for (std::size_t i = 0; i < columns.size(); ++i) {
    const auto& cell = row.cells[i];
    const auto& column = columns[i];
    if (column.key != nullptr && !cell.empty()) {
      try {
        lot.values.emplace_back(
            column.key, column.key->kind == Kind::quantity ? quantity(column, cell, acid_basis) : word(column, cell));
      } catch (const InputError& error) {
        throw InputError(fmt::format("{}: {}", column.key->name, error.what()), error.hint());
      }
    }
  }
  if (lot.name.empty()) throw InputError("the lot has no name", "fill in the column 'lot'");
  check_lot_name(lot.name);
  return lot;
}

}  // namespace vatwright
