// Readings of one sample in one laboratory, and the result that may be reported of them: ISO 5725-6, 5.2 (the way
// through it from memory; the critical ranges are those of the normal law, distributions.hpp).
#pragma once

#include <cstdint>
#include <span>

namespace vatwright::statistics {

enum class Verdict : std::uint8_t {
  single,        // one reading: nothing that it could agree with
  agree,         // their mean
  another_due,   // two that do not agree: read a third time; there is no result yet
  median_taken,  // three or more that do not agree: their median, and look for the reason
};

struct Judged {
  Verdict verdict = Verdict::single;
  double value = 0;     // of `another_due`: none
  double standard = 0;  // of it, by the repeatability
  double range = 0;     // of the readings
  double allowed = 0;   // for so many
  bool reported() const { return verdict != Verdict::another_due; }
};

// `limit` is the repeatability limit r: what two readings may differ by in 95 of 100. One reading and more; without a
// limit (0 or less) readings are never refused, and `standard` comes from their own scatter.
Judged judge(std::span<const double> readings, double limit);

// The standard deviation of one reading from the repeatability limit: r = 1.96 √2 s.
double standard_of_limit(double limit);

}  // namespace vatwright::statistics
