// The columns of a table of lots: 'lot', and lot keys with their units, "free SO2 [mg/L]".
#pragma once

#include "host/batch/csv.hpp"
#include "host/recipe/recipe.hpp"

#include <string>
#include <vector>

namespace vatwright {

struct LotColumn {
  const Input* key = nullptr;  // nullptr: the name of the lot
  std::string head;            // as it was written
  std::string unit;            // empty for words
};

// Throws BadInput: a head that no lot has (the nearest is named), a unit of another dimension, none
// where one is due, an acidity that names no acid while the recipe has no `acid_basis`, a column
// twice, no column 'lot'.
std::vector<LotColumn> read_columns(const std::string& file, const CsvRow& head, const Basis* acid_basis);

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
RowLot read_row(const std::vector<LotColumn>& columns, const CsvRow& row, const Basis* acid_basis);

}  // namespace vatwright
