// Quantity -> text, in a unit that a person would choose, rounded to what can be trusted.
#pragma once

#include "units/catalogue.hpp"
#include "units/dimensions.hpp"

#include <string>
#include <string_view>

namespace vatwright {

// A number with so many decimals: "21.3". A value that rounds to zero is printed without a sign.
std::string print_number(double number, int decimals);

// So many significant digits, trailing zeros kept: 0.5 -> "0.500" with three.
std::string print_significant(double number, int digits);

// A standard uncertainty beside a number of so many decimals, of which it takes no more than leave it two significant
// digits (JCGM 100:2008, 7.2.6): beside 3.700 "1.1", beside 0.60 "0.07". The number keeps its own: a dose is weighed.
std::string print_spread(double standard, int decimals);

// A number and its unit; a plain number ("1") and a pH stand without one.
std::string with_unit(std::string number, std::string_view unit);

// "21.3 mg/L"; `unit` is the text of a unit ("1": none is printed). A temperature, pH and the
// hydrometer scales work alike. Throws std::logic_error for what is no unit, or one of another
// dimension: a slip of whoever wrote the line, never of the person at the bench.
template <class Unit>
std::string print(const bu::quantity<Unit>& quantity, std::string_view unit, int decimals);

// The same of a number whose dimension is known only while the program runs, such as the value of a
// key that a recipe names.
std::string print_coherent(double coherent, const Dimension& dimension, std::string_view unit, int decimals);

// The same with a standard uncertainty of two significant digits, the value cut to match:
// "21.3 ± 2.9 mg/L".
std::string print_coherent(double coherent, double uncertainty, const Dimension& dimension, std::string_view unit,
                           int decimals);

// A number and the text of the unit it is in.
struct Shown {
  double number;
  std::string unit;
};

// The unit of mass or volume that keeps the figure between 1 and 1000: 0.0003 kg -> 300 mg.
Shown readable(Mass mass);
Shown readable(Volume volume);

// What a cellar balance shows: to 0.01 g below 20 g, 0.1 g below 200 g, 1 g below 2 kg, 10 g below
// 30 kg, 100 g beyond (common practice, no source).
Mass to_balance(Mass mass);

// What a measuring cylinder or a meter shows: three significant digits of the volume.
Volume to_measure(Volume volume);

template <class Unit>
std::string print(const bu::quantity<Unit>& quantity, std::string_view unit, int decimals) {
  return print_coherent(quantity.value(), dimension_of<bu::quantity<Unit>>(), unit, decimals);
}

}  // namespace vatwright
