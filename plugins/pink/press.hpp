// pink.press: from fruit to litres by press fraction, what settles and what is lost, and where to cut.
#pragma once

#include "plugins/lab/gas.hpp"
#include "plugins/pink/keys.hpp"

#include <array>
#include <iterator>

namespace vatwright::pink::press {

// Juice from fruit: volume per mass.
using JuiceYield = decltype(Volume() / Mass());
constexpr JuiceYield litre_per_tonne = litre / tonne;
constexpr JuiceYield gallon_per_short_ton = us_gallon / (2000.0 * pound);

inline constexpr Source practice{.title = "yields and losses for planning", .standing = "common practice, no source"};
inline constexpr Source yields_in_print{.title = "American Journal of Enology and Viticulture 34 (1983)",
                                        .place = "juice of crushed fruit, 130 to 185 US gal for a short ton",
                                        .standing = "read in a quotation"};
inline constexpr Source filling{.title = "La Vigne no. 168, September 2005",
                                .place = "29 press cycles: 65 to 85 % of the juice runs off while the press is filled"};
inline constexpr JuiceYield least_usual_yield = 130.0 * gallon_per_short_ton;
inline constexpr JuiceYield most_usual_yield = 185.0 * gallon_per_short_ton;
inline constexpr Fraction least_usual_free_run = 65.0 * percent;
inline constexpr Fraction most_usual_free_run = 85.0 * percent;

constexpr Key<JuiceYield> yield_key(std::string_view name, std::string_view help) {
  return Key<JuiceYield>{{.name = name, .help = help, .unit = "L/t", .valid = Range{0, 900}, .source = slip_guard}};
}
constexpr Key<Fraction> lees_key(std::string_view name) {
  return Key<Fraction>{{.name = name,
                        .help = "part of this juice that settles out",
                        .unit = "%",
                        .valid = Range{0, 50},
                        .usual = Range{2, 20},
                        .source = practice}};
}

inline constexpr Key<Mass> fruit{{.name = "fruit",
                                  .help = "mass of grapes in the press",
                                  .unit = "kg",
                                  .valid = Range{1, 1e6},
                                  .source = slip_guard}};
inline constexpr auto free_run = yield_key("free run", "juice that runs off without pressure");
inline constexpr auto light_press = yield_key("light press", "juice at light pressure, up to 0.2 to 0.5 bar");
inline constexpr auto heavy_press = yield_key("heavy press", "juice at higher pressure, kept apart");
inline constexpr auto lees_of_free_run = lees_key("lees of free run");
inline constexpr auto lees_of_light_press = lees_key("lees of light press");
inline constexpr auto lees_of_heavy_press = lees_key("lees of heavy press");
inline constexpr Key<Fraction> later_losses{
    {.name = "later losses",
     .help = "of the clear juice, up to the bottle: yeast lees, fining, filters",
     .unit = "%",
     .valid = Range{0, 50},
     .usual = Range{3, 10},
     .source = practice}};
inline constexpr Density usual_juice_density = coherent<Density>(1085);  // kg/m³; common practice, no source
inline constexpr Key<Density> juice_density{{.name = "juice density",
                                             .help = "weighs the juice against the fruit; else that of the lot counts, "
                                                     "or 1085 kg/m³",
                                             .unit = "kg/m³",
                                             .valid = Range{1000, 1200},
                                             .usual = Range{1050, 1120},
                                             .source = slip_guard}};

inline constexpr Key<Volume> juice_so_far{{.name = "juice",
                                           .help = "that has run off so far, free run counted in",
                                           .unit = "L",
                                           .valid = Range{0, 1e6},
                                           .source = slip_guard}};
inline constexpr Need columns[] = {needs(juice_so_far), takes(lot::ph), takes(lot::conductivity)};
inline constexpr RowsKey readings{
    {.name = "readings", .help = "pH, conductivity or both, taken at the press as the juice runs", .each = columns}};
inline constexpr Key<Ph> cut_at_ph_rise{{.name = "cut at pH rise",
                                         .help = "over the first reading, where the juice is to be parted",
                                         .unit = "pH",
                                         .valid = Range{0.02, 1},
                                         .usual = Range{0.05, 0.4},
                                         .source = practice}};
inline constexpr Key<Fraction> cut_at_conductivity_rise{{.name = "cut at conductivity rise",
                                                         .help = "over the first reading, as a part of it",
                                                         .unit = "%",
                                                         .valid = Range{2, 200},
                                                         .usual = Range{10, 60},
                                                         .source = practice}};
inline constexpr NewLotKey free_run_into{
    {.name = "free run into", .help = "name of the lot that the free run becomes"}};
inline constexpr NewLotKey light_press_into{
    {.name = "light press into", .help = "name of the lot that the light press becomes"}};
inline constexpr NewLotKey heavy_press_into{
    {.name = "heavy press into", .help = "name of the lot that the heavy press becomes"}};

inline constexpr Result<Volume> free_run_juice{
    {.name = "free run juice", .help = "before it settles", .unit = "L", .decimals = 0}};
inline constexpr Result<Volume> light_press_juice{
    {.name = "light press juice", .help = "before it settles", .unit = "L", .decimals = 0}};
inline constexpr Result<Volume> heavy_press_juice{
    {.name = "heavy press juice", .help = "before it settles", .unit = "L", .decimals = 0}};
inline constexpr Result<Volume> all_juice{{.name = "juice", .help = "of all fractions", .unit = "L", .decimals = 0}};
inline constexpr Result<JuiceYield> yield{
    {.name = "yield", .help = "juice from a tonne of fruit", .unit = "L/t", .decimals = 0}};
inline constexpr Result<Volume> deposit{
    {.name = "settling lees", .help = "of all fractions", .unit = "L", .decimals = 0}};
inline constexpr Result<Volume> clear_juice{
    {.name = "clear juice", .help = "of all fractions, after settling", .unit = "L", .decimals = 0}};
inline constexpr Result<Volume> wine{
    {.name = "wine in bottle", .help = "after the later losses", .unit = "L", .decimals = 0}};
inline constexpr Result<Mass> pomace{
    {.name = "pomace", .help = "fruit less the weight of its juice", .unit = "kg", .decimals = 0}};
inline constexpr Result<Volume> cut_after{
    {.name = "cut after",
     .help = "juice that has run off where the readings say to part it; the fractions are parted there",
     .unit = "L",
     .decimals = 0}};

// What the juice is, because its fruit is, and what the law counts of what the fruit was given.
inline constexpr auto handed_on =
    joined(std::array<const Input*, 5>{&lot::varieties, &lot::vintage, &lot::origin, &lot::wine_class, &lot::zone},
           lot::keys_that<lot::is_counted_by_law>);

inline constexpr std::array own{needs(fruit),
                                needs(free_run),
                                needs(light_press),
                                takes(heavy_press, "0 L/t"),
                                takes(lees_of_free_run, "6 %"),
                                takes(lees_of_light_press, "8 %"),
                                takes(lees_of_heavy_press, "12 %"),
                                takes(later_losses, "6 %"),
                                takes(juice_density),
                                takes(lot::density),
                                takes(readings),
                                takes(cut_at_ph_rise),
                                takes(cut_at_conductivity_rise),
                                takes(free_run_into),
                                takes(light_press_into),
                                takes(heavy_press_into),
                                takes(lot::colour)};
inline constexpr auto inputs = joined(own, takes_each(handed_on));
inline constexpr const ResultInfo* results[] = {&free_run_juice, &light_press_juice, &heavy_press_juice, &all_juice,
                                                &yield,          &deposit,           &clear_juice,       &wine,
                                                &pomace,         &cut_after};
inline constexpr Source sources[] = {
    {.title = "mass balance of fruit and juice", .standing = "derived"}, practice, yields_in_print, filling};
inline constexpr std::string_view example_readings =
    "readings=[{juice: 1800 L, pH: 3.21}, {juice: 2150 L, pH: 3.26}, {juice: 2350 L, pH: 3.34}, {juice: 2550 L, pH: "
    "3.49}]";
inline constexpr std::string_view example[] = {"fruit=4200 kg",      "free run=430 L/t",       "light press=130 L/t",
                                               "heavy press=60 L/t", "cut at pH rise=0.15 pH", example_readings};

Outcome run(const Inputs& in);

inline constexpr Model<Fraction> press_yields{{.name = "the yields of the press",
                                               .help = "juice from a tonne, from one load to the next",
                                               .unit = "%",
                                               .standard = 5,
                                               .source = {.standing = "common practice, no source"},
                                               .measure = "the juice of the first load"}};
inline constexpr const ModelInfo* models[] = {&press_yields};

inline constexpr Calculation calculation{.name = "press",
                                         .help = "litres by press fraction, lees, losses, and where to cut",
                                         .inputs = inputs,
                                         .results = results,
                                         .reagents = lab::gives_off_gas,
                                         .models = models,
                                         .sources = sources,
                                         .example = example,
                                         .run = run,
                                         .label = "How many litres will the press give, and where do I cut?"};

}  // namespace vatwright::pink::press
