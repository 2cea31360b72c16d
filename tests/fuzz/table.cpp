// The reader of a table of lots: the rows, the head, and each row as a lot.
#include "host/batch/columns.hpp"
#include "tests/fuzz/input.hpp"
#include "units/basis.hpp"
#include "units/error.hpp"

using namespace vatwright;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  try {
    CsvReader reader(fuzz::file_of(fuzz::text_of(data, size)));
    CsvRow row;
    if (!reader.next(row)) return 0;
    const auto columns = read_columns("lots.csv", row, &bases()[0]);
    while (reader.next(row)) {
      csv_line(row.cells);
      try {
        read_row(columns, row, &bases()[0]);
      } catch (const InputError&) {
      }
    }
  } catch (const BadInput&) {
  }
  return 0;
}
