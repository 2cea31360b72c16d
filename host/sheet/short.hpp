// The short form of a sheet, for one page: what to do, in order, with its cautions once, and room for two signatures.
#pragma once

#include "host/bench/worksheet.hpp"

#include <string>
#include <vector>

namespace vatwright {

// A line to tick off, or one that says that there is nothing to tick.
struct ShortLine {
  std::string words;
  bool to_tick = true;
};

struct ShortSheet {
  std::vector<std::string> fails;  // checks, with what to do about them
  std::vector<std::string> apart;
  std::vector<ShortLine> lines;
  std::vector<std::string> figures;  // of steps that ask for nothing: "molecular SO2 0.34 mg/L (lot T7)"
  // By substance; of several the cautions that all of them share stand in `shared` alone.
  struct Care {
    std::string of;
    std::vector<std::string> cautions;
  };
  std::vector<Care> care;
  std::vector<std::string> shared;
};

ShortSheet in_short(const Worksheet& sheet);

inline constexpr std::string_view short_words =
    "The short form: numbers, checks, sources and the handling of each substance are on the full sheet.";

}  // namespace vatwright
