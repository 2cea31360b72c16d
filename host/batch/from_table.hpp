// A table of readings for a step that takes a row for each of them: a recipe says 'readings: from table', and the rows
// of the table are written in its place, so that the sheet carries all that it was computed from.
#pragma once

#include "host/yaml/document.hpp"

#include <filesystem>
#include <optional>
#include <string_view>

namespace vatwright {

inline constexpr std::string_view from_table = "from table";

// Nothing where no step of the recipe says so. The head of the table (CSV) names what each column is, with its unit in
// brackets ('density [kg/m³]'); an empty cell is left out. Throws BadInput: two places that ask for the table, a table
// without rows, a row that is shorter or longer than the head, more rows than a recipe may hold.
std::optional<Document> with_readings(const Document& recipe, const std::filesystem::path& table);

}  // namespace vatwright
