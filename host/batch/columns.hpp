// The columns of a table of lots: 'lot', and lot keys with their units, "free SO2 [mg/L]".
#pragma once

#include "host/batch/csv.hpp"
#include "host/recipe/recipe.hpp"

#include <string>
#include <vector>

namespace vatwright {

struct LotColumn {
  const Input* key = nullptr;  // nullptr: the name of the lot, or a column that is carried along
  std::string head;            // as it was written
  std::string unit{};          // empty for words
  bool carried = false;        // nobody reads it: it goes to the answer as it is

  bool names_the_lot() const { return key == nullptr && !carried; }
};

// Which columns that no lot has go to the answer as they are; any other is refused.
struct Carry {
  bool all = false;  // but for those that look like a slip in a head
  std::vector<std::string> heads{};
};

// Throws BadInput: a head that no lot has (the nearest is named), a unit of another dimension, none
// where one is due, an acidity that names no acid while the recipe has no `acid_basis`, a column
// twice, no column 'lot', one that is to be carried and is not there. `units_in_cells`: a head needs no unit, since
// each cell has its own.
std::vector<LotColumn> read_columns(const std::string& file, const CsvRow& head, const Basis* acid_basis,
                                    const Carry& carry = {}, bool units_in_cells = false);

// The name of the lot of a row, whatever else is amiss with the row; empty when there is none.
std::string name_in(const std::vector<LotColumn>& columns, const CsvRow& row);

// The lot of a row over what the recipe says of every lot; an empty cell leaves that as it is.
// Cells are read as quantities are in a recipe, so that "14 ± 2" is one.
// Throws InputError, which names the column: no number, out of range, an unknown word, another
// count of cells, no name or one that no lot may have.
struct RowLot {
  std::string name;
  std::vector<std::pair<const Input*, Value>> values;
};

// The cells that are carried along, in the order of their columns; empty where the row has none.
std::vector<std::string> carried_in(const std::vector<LotColumn>& columns, const CsvRow& row);
RowLot read_row(const std::vector<LotColumn>& columns, const CsvRow& row, const Basis* acid_basis);

}  // namespace vatwright
