// The one reader of plain figures, the same with every standard library.
#pragma once

#include <cstddef>
#include <string_view>

namespace vatwright {

struct FigureRead {
  double value = 0;           // zero where it is none or out of range
  std::size_t length = 0;     // in bytes; 0: the text does not begin with a figure
  bool out_of_range = false;  // a figure, but one that no double is near

  bool fits() const { return length > 0 && !out_of_range; }
};

// What the text begins with: "48.5", "-.5", "1e-3". No plus sign, no space before it, no 'inf' and no 'nan', which no
// measurement is. The nearest double, whatever the locale.
FigureRead read_figure(std::string_view text);

}  // namespace vatwright
