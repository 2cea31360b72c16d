// The reader of a table of lots: the rows, the head, and each row as a lot; with commas, and as spreadsheets of half of
// Europe write it, with semicolons.
#include "host/batch/columns.hpp"
#include "tests/fuzz/input.hpp"
#include "units/basis.hpp"
#include "units/error.hpp"

using namespace vatwright;

namespace {

void read_through(const std::filesystem::path& file, char separator) {
  try {
    CsvReader reader(file, separator);
    CsvRow row;
    if (!reader.next(row)) return;
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
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const auto file = fuzz::file_of(fuzz::text_of(data, size));
  for (const char separator : {',', ';'}) read_through(file, separator);
  return 0;
}
