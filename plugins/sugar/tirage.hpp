// Tirage: sugar for the second fermentation, and the pressure that it makes in the bottle together with
// the sugar that the cuvée has.
#pragma once

#include "host/plugin/plugin.hpp"
#include "plugins/chemistry/sparkling.hpp"
#include "plugins/chemistry/sweetening.hpp"

#include <string>

namespace vatwright::sugar::tirage {

inline constexpr Source solubility{.title = "Regulation (EEC) No 2676/90, chapter 37: carbon dioxide from overpressure",
                                   .place = "at 20 °C",
                                   .standing = "formula read in quotations, number of the text from memory"};
inline constexpr Source gas_yield{.title = "Huxley, Critiques and Addresses, on Pasteur",
                                  .place = "5 to 7 % of the sugar becomes neither alcohol nor carbon dioxide"};
inline constexpr Source heat_of_solution{.title = "Liger-Belair, Henry's constant of carbon dioxide in wine",
                                         .standing = "from memory"};
inline constexpr Source usual_bottle{.title = "6 bar, a guard for bottles of sparkling wine",
                                     .standing = "common practice, no source"};
inline constexpr Pressure guard = 6.0 * chemistry::bar;

inline constexpr Key<Pressure> rated{
    {.name = "rated pressure",
     .help = "overpressure at 20 °C that bottle and closure are rated for by their makers, the lower of the two; "
             "without it a guard for bottles of sparkling wine holds",
     .unit = "bar",
     .valid = Range{0.5, 20},
     .usual = Range{1, 10},
     .source = usual_bottle}};

inline constexpr Limit<Pressure> least_pressure{
    {.name = "least overpressure", .help = "what sparkling wine must have; less is a note", .unit = "bar"}};

inline constexpr Result<MassConcentration> carbon_dioxide{
    {.name = "carbon dioxide", .help = "made in the bottle by all sugar, with what is there", .unit = "g/L"}};
inline constexpr Result<Pressure> overpressure{
    {.name = "overpressure at 20 °C", .help = "in the bottle, when all sugar has fermented", .unit = "bar"}};

// By the names of the catalogue (host/substances/substances.yaml).
inline constexpr std::string_view of_sucrose = "tirage liqueur";
inline constexpr std::string_view of_concentrate = "tirage liqueur of concentrated must";

// Remedies.
inline constexpr std::string_view stronger_bottles =
    "; or take bottles and closures whose makers rate them for more, and give that as 'rated pressure'";
inline constexpr std::string_view too_sweet =
    "the sugar of the cuvée makes more than these bottles stand: do not bottle it for a second fermentation";

// A sparkling lot at stage wine is sweetened for its second fermentation; so is one that has alcohol and
// does not say its stage.
bool is_meant(const Inputs& in);
// Throws InputError where what it rests on is not stated.
void require(const Inputs& in);

// The bottles that a cuvée goes into. All sugar is taken to ferment.
class Bottles {
 public:
  Bottles(const Inputs& in, chemistry::YieldFactor factor);

  bool stand(const chemistry::SweetMust& then) const;
  void write(const chemistry::SweetMust& then, Outcome& out) const;
  void hold(const chemistry::SweetMust& then, std::string remedy, Outcome& out) const;
  void ask_for(const chemistry::SweetMust& then, Outcome& out) const;
  // The pressure by temperature.
  void tabulate(const chemistry::SweetMust& then, Outcome& out) const;
  // What the pressure rests on; `now` is the cuvée before.
  void say(const Inputs& in, const chemistry::SweetMust& now, const chemistry::SweetMust& then, Outcome& out) const;

 private:
  Pressure pressure(const chemistry::SweetMust& then) const;

  Pressure rated_;
  bool stated_;
  chemistry::YieldFactor factor_;
};

}  // namespace vatwright::sugar::tirage
