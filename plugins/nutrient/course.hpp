// How far the fermentation has come, and so when each portion goes in.
#pragma once

#include "host/plugin/plugin.hpp"

#include <string>
#include <vector>

namespace vatwright::nutrient::nitrogen {

struct Course {
  bool second = false;  // a second fermentation, which sugar was added for
  bool begun = false;   // there is alcohol of this fermentation
  // What it began with; nothing when the sugar of today is not known.
  std::optional<MassConcentration> original{};
  Fraction gone{};  // of that sugar
};

// From the sugar and the alcohol of today: what has become alcohol was sugar of the must.
Course course_of(const Inputs& in);

// Throws InputError after the middle of the fermentation, when nutrients come too late.
void check_time(const Course& course);

struct Moment {
  std::string when;
  std::optional<MassConcentration> sugar_left{};
};

// One for each portion; a portion whose time is past goes in with the next.
std::vector<Moment> moments(const Inputs& in, const Course& course);

// What to know of the course when portions are given.
void say_course(const Inputs& in, const Course& course, Outcome& out);

}  // namespace vatwright::nutrient::nitrogen
