// Whether two worksheets in JSON say the same: words and shape exactly, figures as far as any sheet shows them.
#pragma once

#include "host/bench/worksheet.hpp"

#include <nlohmann/json.hpp>

#include <cstddef>
#include <string>
#include <vector>

namespace vatwright {

struct SheetDifferences {
  std::vector<std::string> words;  // one a difference, each with its place in the sheet
  std::size_t compared = 0;        // figures and words
};

// `computed` is what write_json wrote of `anew`, which knows how finely each of its figures is shown. The last bits of
// exp and log differ from one C library to the next: a figure may lie 1e-9 of itself from the other, and one that
// declares decimals a tenth of the last digit that any table shows of it.
SheetDifferences differences_of(const nlohmann::json& sheet, const nlohmann::json& computed, const Worksheet& anew);

}  // namespace vatwright
