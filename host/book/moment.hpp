// Days and hours as people write them, with their zone.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>

namespace vatwright::book {

// An hour: as it is written, "2026-10-03T09:30:00+02:00", and in seconds since 1970 for the order.
struct Moment {
  std::string written;
  std::int64_t seconds = 0;
};

Moment now();

enum class Day : std::uint8_t { begins, ends };  // what a day without an hour stands for

// "2026-10-03", "2026-10-03 09:30", "2026-10-03T09:30:00+02:00"; without a zone in the zone of this computer. Throws
// InputError.
Moment moment_of(const std::string& text, Day day);

// One that the book holds already: with its zone, to the second. Throws InputError for anything else.
std::int64_t seconds_of(std::string_view written);

// "2026-10-03 09:30" of the written form; "2026-10".
std::string short_hour(std::string_view written);
inline std::string month_of(std::string_view written) { return std::string(written.substr(0, 7)); }
inline std::string day_of(std::string_view written) { return std::string(written.substr(0, 10)); }

}  // namespace vatwright::book
