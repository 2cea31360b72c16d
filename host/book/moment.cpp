#include "host/book/moment.hpp"

#include "units/error.hpp"
#include "units/nearest.hpp"

#include <fmt/format.h>

#include <chrono>
#include <ctime>
#include <optional>

namespace vatwright::book {
namespace {

constexpr int minute = 60, hour = 3600, day_seconds = 86400;
constexpr char such_hour[] = "write such as '2026-10-03', '2026-10-03 09:30' or '2026-10-03T09:30:00+02:00'";

// Reads figures and marks of a time from its left.
class Hand {
 public:
  explicit Hand(std::string_view text) : text_(text) {}
  bool at_end() const { return at_ == text_.size(); }
  bool mark(char c) {
    if (at_end() || text_[at_] != c) return false;
    ++at_;
    return true;
  }
  std::optional<int> digits(std::size_t count) {
    if (at_ + count > text_.size()) return std::nullopt;
    int number = 0;
    for (const char c : text_.substr(at_, count)) {
      if (c < '0' || c > '9') return std::nullopt;
      number = 10 * number + (c - '0');
    }
    at_ += count;
    return number;
  }

 private:
  std::string_view text_;
  std::size_t at_ = 0;
};

struct Read {
  std::chrono::year_month_day day{};
  int seconds = 0;  // of the day
  bool has_hour = false;
  std::optional<int> zone{};  // seconds east
};

std::optional<int> read_zone(Hand& hand) {
  if (hand.mark('Z')) return 0;
  const bool east = hand.mark('+');
  if (!east && !hand.mark('-')) return std::nullopt;
  const auto hours = hand.digits(2);
  if (!hours || !hand.mark(':')) return std::nullopt;
  const auto minutes = hand.digits(2);
  constexpr int most = 14;
  if (!minutes || *hours > most || *minutes >= minute) return std::nullopt;
  return (east ? 1 : -1) * (*hours * hour + *minutes * minute);
}

std::optional<Read> read(std::string_view text) {
  Hand hand(text);
  Read out;
  const auto year = hand.digits(4);
  if (!year || !hand.mark('-')) return std::nullopt;
  const auto month = hand.digits(2);
  if (!month || !hand.mark('-')) return std::nullopt;
  const auto day = hand.digits(2);
  if (!day) return std::nullopt;
  out.day = std::chrono::year(*year) / *month / *day;
  constexpr int first_year = 1900;
  if (!out.day.ok() || *year < first_year) return std::nullopt;
  if (hand.at_end()) return out;
  if (!hand.mark('T') && !hand.mark(' ')) return std::nullopt;
  const auto hours = hand.digits(2);
  if (!hours || !hand.mark(':')) return std::nullopt;
  const auto minutes = hand.digits(2);
  int seconds = 0;
  if (hand.mark(':')) {
    const auto read_seconds = hand.digits(2);
    if (!read_seconds) return std::nullopt;
    seconds = *read_seconds;
  }
  constexpr int hours_a_day = 24;
  if (!minutes || *hours >= hours_a_day || *minutes >= minute || seconds >= minute) return std::nullopt;
  out.has_hour = true;
  out.seconds = *hours * hour + *minutes * minute + seconds;
  if (hand.at_end()) return out;
  out.zone = read_zone(hand);
  if (!out.zone || !hand.at_end()) return std::nullopt;
  return out;
}

std::int64_t days_of(const std::chrono::year_month_day& day) {
  return std::chrono::sys_days(day).time_since_epoch().count();
}

// Of this computer, at that hour of its own clock.
int zone_here(const Read& read) {
  std::tm local{};
  local.tm_year = static_cast<int>(read.day.year()) - 1900;
  local.tm_mon = static_cast<int>(static_cast<unsigned>(read.day.month())) - 1;
  local.tm_mday = static_cast<int>(static_cast<unsigned>(read.day.day()));
  local.tm_sec = read.seconds;
  local.tm_isdst = -1;
  const std::time_t utc = std::mktime(&local);
  return utc == -1 ? 0 : static_cast<int>(days_of(read.day) * day_seconds + read.seconds - utc);
}

std::string written_of(std::int64_t local_seconds, int zone) {
  const auto days =
      std::chrono::floor<std::chrono::days>(std::chrono::sys_seconds(std::chrono::seconds(local_seconds)));
  const std::chrono::year_month_day day(days);
  const auto of_day = static_cast<int>(local_seconds - days.time_since_epoch().count() * day_seconds);
  const int east = zone < 0 ? -zone : zone;
  return fmt::format("{:04}-{:02}-{:02}T{:02}:{:02}:{:02}{}{:02}:{:02}", static_cast<int>(day.year()),
                     static_cast<unsigned>(day.month()), static_cast<unsigned>(day.day()), of_day / hour,
                     of_day % hour / minute, of_day % minute, zone < 0 ? '-' : '+', east / hour, east % hour / minute);
}

}  // namespace

Moment now() {
  const std::time_t utc = std::time(nullptr);
  std::tm local{};
  ::localtime_r(&utc, &local);
  const int zone = static_cast<int>(local.tm_gmtoff);
  return {written_of(utc + zone, zone), utc};
}

Moment moment_of(const std::string& text, Day day) {
  auto found = read(text);
  if (!found) throw InputError("expected a day or an hour, read " + in_quotes(text), such_hour);
  if (!found->has_hour && day == Day::ends) found->seconds = day_seconds - 1;
  const int zone = found->zone ? *found->zone : zone_here(*found);
  const std::int64_t local = days_of(found->day) * day_seconds + found->seconds;
  return {written_of(local, zone), local - zone};
}

std::int64_t seconds_of(std::string_view written) {
  const auto found = read(written);
  if (!found || !found->zone || written_of(days_of(found->day) * day_seconds + found->seconds, *found->zone) != written)
    throw InputError("expected an hour with its zone, read " + in_quotes(std::string(written)),
                     "written as 2026-10-03T09:30:00+02:00");
  return days_of(found->day) * day_seconds + found->seconds - *found->zone;
}

std::string short_hour(std::string_view written) {
  constexpr std::size_t to_the_minute = 16;
  std::string out(written.substr(0, to_the_minute));
  if (out.size() == to_the_minute) out[10] = ' ';
  return out;
}

}  // namespace vatwright::book
