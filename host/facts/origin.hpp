// Where a value comes from. Whoever asks whether a figure was measured asks this, and never a text.
#pragma once

#include <cstddef>
#include <cstdint>
#include <string>

namespace vatwright {

struct Origin {
  enum class Of : std::uint8_t {
    reading,   // the lot's own, as the recipe gives it
    said,      // by the step that takes it
    fallback,  // nobody gave it
    reckoned,  // by an earlier step, from what a laboratory read
    forecast,  // by an earlier step, of what it will be: to be measured before a dose rests on it
    booked,    // by an earlier step, of what was done: known without measuring
  };
  Of of = Of::reading;
  std::size_t step = 0;  // steps[step] of the sheet, for the last three

  bool by_step() const { return of >= Of::reckoned; }
  bool is_forecast() const { return of == Of::forecast; }
  bool is_fallback() const { return of == Of::fallback; }
  bool operator==(const Origin&) const = default;
};

// As a sheet says it: "lot", "step", "default", or "step 2".
inline std::string words(const Origin& origin) {
  switch (origin.of) {
    case Origin::Of::reading:
      return "lot";
    case Origin::Of::said:
      return "step";
    case Origin::Of::fallback:
      return "default";
    case Origin::Of::reckoned:
    case Origin::Of::forecast:
    case Origin::Of::booked:
      break;
  }
  return "step " + std::to_string(origin.step + 1);
}

}  // namespace vatwright
