// Quantiles that the laboratory's rules go by: Student's t, the range of readings of one normal law, and what follows
// from them. By Boost.Math, never from printed tables.
#pragma once

#include <cstddef>

namespace vatwright::statistics {

// Student's t that is passed on either side, or on one, with the chance `error`. Freedom 1 and more.
double student_two_sided(double error, std::size_t freedom);
double student_one_sided(double error, std::size_t freedom);

// The range of n readings (2 and more) of a normal law, in its standard deviations: what it is in 95 of 100 at most,
// its mean (d2), its standard deviation (d3).
double range_at_most(std::size_t n);
double mean_range(std::size_t n);
double standard_of_range(std::size_t n);

// The mean of the standard deviation of n readings, in that of the law (c4).
double mean_standard(std::size_t n);

// Grubbs: how many standard deviations the farthest of n readings (3 and more) may be off their mean, two-sided.
double grubbs_critical(std::size_t n, double error);

// Cochran: what share of all variances the largest may be, of `groups` of n readings each.
double cochran_critical(std::size_t groups, std::size_t n, double error);

}  // namespace vatwright::statistics
