#include "plugins/cold/conductivity.hpp"

#include "plugins/chemistry/conductivity.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

#include <cmath>

namespace vatwright::cold::conductivity {
namespace {

constexpr double hair = 1e-9;

std::string microsiemens(Conductivity c) { return print(c, "µS/cm", 0); }
std::string degrees(Temperature t) { return print(t, "°C", 1); }
bool near(Temperature a, Temperature b) { return std::abs((a - b).value()) <= 1; }

// What the cell's readings are to be multiplied by.
Fraction cell_correction(const Inputs& in, Outcome& out) {
  if (in.has(chloride_reading) != in.has(chloride_temperature))
    throw InputError("a reading in potassium chloride needs its temperature, and the temperature a reading",
                     "give 'chloride reading' and 'chloride temperature', or neither");
  if (!in.has(chloride_reading)) return coherent<Fraction>(1);
  const Fraction factor = chemistry::potassium_chloride_conductivity(in[chloride_temperature]) / in[chloride_reading];
  out.note(fmt::format(
      "the cell reads {} in potassium chloride at {}: both readings times {} (Handbook of Enology, "
      "vol. 2, table 1.12)",
      microsiemens(in[chloride_reading]), degrees(in[chloride_temperature]), print_number(factor.value(), 4)));
  return factor;
}

void judge_contact(const Inputs& in, Fraction fall, Outcome& out) {
  if (fall < Fraction{})
    throw InputError("the conductivity rose in the mini-contact test: " + microsiemens(in[initial]) + " to " +
                         microsiemens(in[final_reading]),
                     "the wine took crystals up, or it warmed: it is not supersaturated at this temperature, or the "
                     "two readings are swapped");
  const Fraction most = in[most_drop];
  const bool holds = fall <= most + coherent<Fraction>(hair);
  out.checks.push_back(
      {.name = fmt::format("bitartrate stable, mini-contact test at {}", degrees(in[test_temperature])),
       .holds = holds,
       .value = figure(fall, "%", 2),
       .limit = figure(most, "%", 2),
       .relation = "at most",
       .source = "Handbook of Enology, vol. 2, section 1.6.2: above 5 % is unstable; a stricter "
                 "limit is the cellar's own",
       .remedy = holds ? "" : "chill and seed, or protect the wine (cold.treatment), and test again"});
  if (in.figures_only()) return;
  if (std::abs(fall.value() - most.value()) < 1e-4)
    out.note(
        "the fall is at the limit. Sources part there: one calls it unstable above 5 %, one from 5 % on; repeat it");
  if (in[test_temperature] > celsius(5))
    out.note("the test tells of its own temperature: run it as cold as the wine will have to stand");
  out.note(
      "stir 10 g/L of fine potassium bitartrate in until 2 or 3 readings agree, mostly within 30 min (P. Howe 2013): "
      "the mesh of the crystals, the stirring and the temperature all move the result");
  out.note(
      "a short test overrates stability, since only part of what can fall has fallen; the cold test (-4 °C, 3 days) "
      "settles a doubtful one. Fixed bands in µS/cm are in use, but none was confirmed");
}

// Würdig's formula is for white wine, Maujean's for pink and red.
const chemistry::SaturationFormula& formula_for(const Inputs& in) {
  const auto colour = in.get(lot::colour);
  if (colour.empty())
    throw InputError("the saturation temperature has one formula for white and one for pink and red wine",
                     "give the colour, such as 'colour: pink'");
  return colour == "white" ? chemistry::wuerdig : chemistry::maujean;
}

void check_temperature(const Inputs& in, const chemistry::SaturationFormula& formula, Outcome& out) {
  if (near(in[test_temperature], formula.read_at)) return;
  const bool is_maujean = &formula == &chemistry::maujean;
  if (is_maujean && near(in[test_temperature], chemistry::wuerdig.read_at)) {
    out.note(
        "Maujean's formula was seen with readings at 30 °C; P. Howe (2013) puts readings at 20 °C into it. The two do "
        "not agree: take the result with care");
    return;
  }
  throw InputError(
      "this formula takes readings at " + degrees(formula.read_at) + ", not at " + degrees(in[test_temperature]),
      is_maujean ? "read both at 30 °C" : "read both at 20 °C");
}

// Crystals dissolve only in a wine that is not saturated at the temperature of the readings.
void refuse_contradiction(const Inputs& in, Conductivity rise, Temperature found) {
  if (!(rise > Conductivity{}) || found < in[test_temperature] || near(found, in[test_temperature])) return;
  throw InputError(
      fmt::format("the formula gives a saturation temperature of {}, yet the wine dissolved bitartrate at {}",
                  degrees(found), degrees(in[test_temperature])),
      "Maujean's formula was seen with readings at 30 °C: take both there");
}

void judge_saturation(const Inputs& in, Conductivity rise, Outcome& out) {
  const auto& formula = formula_for(in);
  check_temperature(in, formula, out);
  if (rise < Conductivity{})
    throw InputError("the conductivity fell when bitartrate was stirred in: " + microsiemens(in[initial]) + " to " +
                         microsiemens(in[final_reading]),
                     "the wine is supersaturated at this temperature, or the two readings are swapped; warm it until "
                     "all is dissolved and read again");
  const Temperature by_line = chemistry::saturation_temperature(rise, formula);
  refuse_contradiction(in, rise, by_line);
  const Temperature found = by_line + in[by_formula];
  out.result(saturation_temperature, found);
  out.checks.push_back(saturation_check("bitartrate stable, saturation temperature", found, criterion_of(in),
                                        "chill and seed, or protect the wine (cold.treatment), and test again"));
  if (in.figures_only()) return;
  out.note(fmt::format(
      "{}, with 4 g/L of potassium bitartrate at {}",
      &formula == &chemistry::wuerdig ? "Würdig et al. 1982, for white wine" : "Maujean et al., for pink and red wine",
      degrees(in[test_temperature])));
  if (!(rise > Conductivity{}))
    out.note(fmt::format("nothing dissolved: the saturation temperature is {} or above", degrees(found)));
  out.note(std::string(bitartrate_test));
}

}  // namespace

Outcome run(const Inputs& in) {
  Outcome out;
  const Fraction cell = cell_correction(in, out);
  const Conductivity fall = cell * (in[initial] - in[final_reading]);
  const Fraction share = (in[initial] - in[final_reading]) / in[initial];
  out.result(drop, fall);
  out.result(drop_share, share);
  if (in[method] == mini_contact)
    judge_contact(in, share, out);
  else
    judge_saturation(in, -fall, out);
  out.reagents = {"potassium bitartrate"};
  if (in.has(chloride_reading)) out.reagents.emplace_back("potassium chloride");
  return out;
}

}  // namespace vatwright::cold::conductivity
