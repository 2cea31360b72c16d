#include "host/batch/csv.hpp"

#include "host/files/spreadsheet.hpp"
#include "host/yaml/document.hpp"

#include <csv.h>
#include <fmt/format.h>

#include <cerrno>
#include <cstdlib>
#include <cstring>
#include <deque>
#include <fstream>
#include <memory>
#include <sstream>

namespace vatwright {
namespace {

constexpr std::size_t block_bytes = 1U << 16U;
constexpr std::size_t most_cell_bytes = 1U << 16U, most_row_bytes = most_cell_bytes, most_cells = 1000;
constexpr char byte_order_mark[] = "\xEF\xBB\xBF";

// A quote that never closes must not gather the whole file in memory.
void* bounded_realloc(void* old, std::size_t size) {
  return size > 2 * most_cell_bytes ? nullptr : std::realloc(old, size);
}

}  // namespace

struct CsvReader::Parser {
  Parser(const std::filesystem::path& path, char separator)
      : Parser(path.string(), std::make_unique<std::ifstream>(path, std::ios::binary), separator) {
    if (!*file)
      throw BadInput(name + ": " + std::strerror(errno) + "\n  look at the name of the table, and who may read it");
    std::error_code ec;
    size = std::filesystem::file_size(path, ec);
    if (ec) size = 0;
  }
  Parser(std::string called, std::unique_ptr<std::istream> from, char separator)
      : name(std::move(called)), file(std::move(from)) {
    csv_init(&csv, CSV_STRICT | CSV_STRICT_FINI);
    csv_set_realloc_func(&csv, bounded_realloc);
    csv_set_delim(&csv, static_cast<unsigned char>(separator));
  }
  Parser(const Parser&) = delete;
  Parser& operator=(const Parser&) = delete;
  ~Parser() { csv_free(&csv); }

  static void cell(void* text, std::size_t length, void* self) {
    auto& parser = *static_cast<Parser*>(self);
    parser.row_bytes += length;
    if (parser.row.size() >= most_cells || parser.row_bytes > most_row_bytes) parser.too_large = true;
    if (!parser.too_large) parser.row.emplace_back(static_cast<const char*>(text), length);
  }
  static void line(int, void* self) {
    auto& parser = *static_cast<Parser*>(self);
    parser.rows.push_back(std::move(parser.row));
    parser.row.clear();
    parser.row_bytes = 0;
  }

  // Reads on until a row is whole, or the file ends.
  void fill() {
    if (!rows.empty()) return;
    std::string block(block_bytes, '\0');
    while (rows.empty() && !ended) {
      file->read(block.data(), static_cast<std::streamsize>(block.size()));
      const auto got = static_cast<std::size_t>(file->gcount());
      std::string_view part(block.data(), got);
      if (done == 0 && part.starts_with(byte_order_mark)) part.remove_prefix(sizeof byte_order_mark - 1);
      done += got;
      if (csv_parse(&csv, part.data(), part.size(), cell, line, this) != part.size()) fail();
      if (got < block.size()) {
        ended = true;
        if (csv_fini(&csv, cell, line, this) != 0) fail();
      }
      if (too_large)
        fail(fmt::format("a row of more than {} cells or {} bytes", most_cells, most_row_bytes),
             "look whether it is the right file, and whether a quote is not closed");
    }
  }

  // What a spreadsheet saves in the code page of its machine would reach the answer as it is.
  void refuse_other_encoding(const CsvRow& read) const {
    for (std::size_t i = 0; i < read.cells.size(); ++i)
      if (not_utf8(read.cells[i]) != std::string_view::npos)
        throw BadInput(
            fmt::format("{}, row {}: cell {} is not UTF-8\n  save the file as UTF-8 (in a spreadsheet: "
                        "'CSV UTF-8', or 'Unicode (UTF-8)' among the character sets)",
                        name, read.line, i + 1));
  }

  [[noreturn]] void fail(const std::string& what, const std::string& hint) const {
    throw BadInput(fmt::format("{}, after row {}: {}\n  {}", name, given + rows.size(), what, hint));
  }
  [[noreturn]] void fail() {
    const int error = csv_error(&csv);
    if (error == CSV_ENOMEM || error == CSV_ETOOBIG)
      fail(fmt::format("a cell of more than {} bytes", most_cell_bytes), "look for a quote that is not closed");
    fail("this is not CSV (RFC 4180)", "write a quote inside a cell twice, and end a quoted cell with its quote");
  }

  std::string name;
  std::unique_ptr<std::istream> file;
  std::uintmax_t size = 0;
  csv_parser csv{};
  std::vector<std::string> row;
  std::deque<std::vector<std::string>> rows;
  std::size_t given = 0, done = 0, row_bytes = 0;
  bool ended = false, too_large = false;
};

CsvReader::CsvReader(const std::filesystem::path& file, char separator)
    : parser_(std::make_unique<Parser>(file, separator)) {}
CsvReader::CsvReader(std::string name, std::string text, char separator)
    : parser_(std::make_unique<Parser>(std::move(name), std::make_unique<std::istringstream>(std::move(text)),
                                       separator)) {}
CsvReader::~CsvReader() = default;

bool CsvReader::next(CsvRow& row) {
  parser_->fill();
  if (parser_->rows.empty()) return false;
  row.cells = std::move(parser_->rows.front());
  parser_->rows.pop_front();
  row.line = ++parser_->given;
  parser_->refuse_other_encoding(row);
  return true;
}

double CsvReader::progress() const {
  return parser_->size == 0 ? 1 : static_cast<double>(parser_->done) / static_cast<double>(parser_->size);
}

std::string csv_cell(std::string_view text) {
  std::string shown = as_text(text);
  if (shown.find_first_of(",\"\r\n") == std::string::npos && !shown.starts_with(' ') && !shown.ends_with(' '))
    return shown;
  std::string out(1, '"');
  for (const char c : shown) {
    if (c == '"') out += '"';
    out += c;
  }
  out += '"';
  return out;
}

std::string csv_line(const std::vector<std::string>& cells) {
  std::string out;
  for (const auto& cell : cells) {
    if (&cell != &cells.front()) out += ',';
    out += csv_cell(cell);
  }
  out += "\r\n";
  return out;
}

}  // namespace vatwright
