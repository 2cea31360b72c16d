// The lot: what a cellar knows of one tank. These keys are the same for every calculation; each
// has one name, one dimension and one valid range. Ranges are guards against slips of the pen
// (common practice, no source), not statements about good wine.
#pragma once

#include "host/plugin/keys.hpp"
#include "units/constants.hpp"

#include <algorithm>
#include <array>

namespace vatwright::lot {

// How facts behave (host/plugin/behaviour.hpp).
inline constexpr Behaviour dissolved{.joins = Joins::by_volume, .thins = Thins::yes};
inline constexpr Behaviour in_the_book{.joins = Joins::by_balance, .thins = Thins::grows, .kept = Kept::book};
inline constexpr Behaviour counted{
    .joins = Joins::as_mean, .thins = Thins::yes, .account = Account::counted, .kept = Kept::book};
// A share of the volume that there was before: what comes later does not thin it.
inline constexpr Behaviour counted_of_before{
    .joins = Joins::as_mean, .thins = Thins::no, .account = Account::counted, .kept = Kept::book};
inline constexpr Behaviour one_word{.joins = Joins::same_word, .thins = Thins::no};
inline constexpr Behaviour shared{.joins = Joins::as_shares, .thins = Thins::no};
inline constexpr Behaviour only_measured{};

inline constexpr Source guard{.title = "guard against slips of the pen", .standing = "common practice, no source"};
inline constexpr Source law{.title = "the words that the rule sets go by"};

inline constexpr Key<Volume> volume{{.name = "volume",
                                     .help = "volume of the lot",
                                     .unit = "L",
                                     .valid = Range{0.001, 1e7},
                                     .usual = Range{1, 100000},
                                     .source = guard,
                                     .behaves = in_the_book}};
inline constexpr Key<Temperature> temperature{{.name = "temperature",
                                               .help = "temperature of the lot",
                                               .unit = "°C",
                                               .valid = Range{-10, 50},
                                               .usual = Range{-5, 35},
                                               .source = guard,
                                               .behaves = {.joins = Joins::as_mean, .thins = Thins::no}}};
inline constexpr Key<Density> density{{.name = "density",
                                       .help = "density at 20 °C",
                                       .unit = "kg/m³",
                                       .valid = Range{950, 1400},
                                       .usual = Range{985, 1130},
                                       .source = guard,
                                       .behaves = {.joins = Joins::by_balance, .thins = Thins::to_mean_mass}}};
inline constexpr Key<MassFraction> soluble_solids{{.name = "soluble solids",
                                                   .help = "by refractometer, at 20 °C",
                                                   .unit = "°Brix",
                                                   .valid = Range{0, 80},
                                                   .usual = Range{0, 35},
                                                   .source = guard,
                                                   .behaves = {.joins = Joins::by_mass, .thins = Thins::by_mass}}};
inline constexpr Key<MassConcentration> sugar{{.name = "sugar",
                                               .help = "glucose and fructose",
                                               .unit = "g/L",
                                               .valid = Range{0, 900},
                                               .usual = Range{0, 320},
                                               .source = guard,
                                               .behaves = dissolved}};
inline constexpr Key<Strength> ethanol{{.name = "ethanol",
                                        .help = "actual alcoholic strength by volume at 20 °C",
                                        .unit = "% vol",
                                        .valid = Range{0, 100},
                                        .usual = Range{0, 22},
                                        .source = guard,
                                        .behaves = {.joins = Joins::by_balance, .thins = Thins::yes}}};
inline constexpr Key<Ph> ph{{.name = "pH",
                             .help = "at 20 to 25 °C",
                             .unit = "pH",
                             .valid = Range{2.0, 5.0},
                             .usual = Range{2.8, 4.2},
                             .source = guard,
                             .behaves = {.joins = Joins::by_balance, .thins = Thins::buffered}}};
inline constexpr Key<Acidity> titratable_acidity{{.name = "titratable acidity",
                                                  .help = "free of carbon dioxide; say the end point on the lab slip",
                                                  .unit = "g/L as tartaric acid",
                                                  .valid = Range{0, 40},
                                                  .usual = Range{3, 16},
                                                  .source = guard,
                                                  .behaves = {.joins = Joins::by_balance, .thins = Thins::yes}}};
inline constexpr std::string_view to_7 = "7.0", to_8 = "8.2";
inline constexpr std::string_view endpoints[] = {to_7, to_8};
inline constexpr Choice endpoint{
    {.name = "endpoint",
     .help = "pH to which the titratable acidity was titrated: 7.0 (OIV) or 8.2; the two are different quantities",
     .choices = endpoints,
     .source = {.title = "OIV-MA-AS313-01, total acidity", .place = "to pH 7, carbon dioxide not counted"},
     .behaves = {.joins = Joins::by_balance, .thins = Thins::no}}};
constexpr Ph ph_of_endpoint(std::string_view word) { return (word == to_8 ? 8.2 : 7.0) * ph_unit; }
inline constexpr Key<Acidity> acid_added{{.name = "acid added",
                                          .help = "acidity added to this must or wine so far; the law counts it",
                                          .unit = "g/L as tartaric acid",
                                          .valid = Range{0, 20},
                                          .usual = Range{0, 4},
                                          .source = guard,
                                          .behaves = counted}};
inline constexpr Key<Acidity> acid_removed{{.name = "acid removed",
                                            .help = "acidity taken away by carbonates so far; the law counts it",
                                            .unit = "g/L as tartaric acid",
                                            .valid = Range{0, 20},
                                            .usual = Range{0, 2},
                                            .source = guard,
                                            .behaves = counted}};
// By the names of the catalogue (host/substances/substances.yaml).
inline constexpr std::string_view diammonium_phosphate = "diammonium phosphate", ammonium_sulfate = "ammonium sulfate";
// As pure acid. It counts where the lot does not state its content, and where a rule is on what was added.
inline constexpr std::string_view added_citric_acid = "citric acid";
// Seed leaves the wine again, as fining agents do; the rows limit what is used all the same.
inline constexpr std::string_view bitartrate_seed = "potassium bitartrate", calcium_seed = "calcium tartrate";
inline constexpr std::string_view counted_treatments[] = {diammonium_phosphate,
                                                          ammonium_sulfate,
                                                          "thiamine hydrochloride",
                                                          "yeast autolysate",
                                                          "yeast hulls",
                                                          "PVPP",
                                                          "activated carbon",
                                                          "chitosan",
                                                          "lysozyme",
                                                          "copper sulfate pentahydrate",
                                                          "copper citrate",
                                                          "tannin",
                                                          "egg albumin",
                                                          added_citric_acid,
                                                          bitartrate_seed,
                                                          calcium_seed,
                                                          "metatartaric acid",
                                                          "carboxymethylcellulose",
                                                          "potassium polyaspartate",
                                                          "gum arabic",
                                                          "ascorbic acid",
                                                          "potassium sorbate",
                                                          "fumaric acid",
                                                          "PVI/PVP"};
constexpr bool is_counted(std::string_view substance) {
  return std::find(std::begin(counted_treatments), std::end(counted_treatments), substance) !=
         std::end(counted_treatments);
}
inline constexpr AmountsKey<MassConcentration> treated_with{
    {.name = "treated with",
     .help = "how much of a substance was added so far, for those whose additions the law counts together",
     .unit = "mg/L",
     .valid = Range{0, 100000},
     .choices = counted_treatments,
     .source = guard,
     .behaves = counted}};
inline constexpr Key<Fraction> water_added{{.name = "water added",
                                            .help = "with treatments so far, of the volume; some rules count it",
                                            .unit = "%",
                                            .valid = Range{0, 100},
                                            .usual = Range{0, 1},
                                            .source = guard,
                                            .behaves = counted}};
inline constexpr Key<Strength> strength_gained{{.name = "strength gained",
                                                .help = "potential strength from all enrichments so far; the law "
                                                        "counts it",
                                                .unit = "% vol",
                                                .valid = Range{0, 20},
                                                .usual = Range{0, 3},
                                                .source = guard,
                                                .behaves = counted}};
inline constexpr Key<Strength> tirage_gained{{.name = "tirage gained",
                                              .help = "potential strength from all tirage liqueur so far; the law "
                                                      "counts it by itself",
                                              .unit = "% vol",
                                              .valid = Range{0, 20},
                                              .usual = Range{0, 1.5},
                                              .source = guard,
                                              .behaves = counted}};
inline constexpr Key<Fraction> volume_gained{{.name = "volume gained",
                                              .help = "from concentrated must so far, of the volume before it; the law "
                                                      "counts it",
                                              .unit = "%",
                                              .valid = Range{0, 100},
                                              .usual = Range{0, 11},
                                              .source = guard,
                                              .behaves = counted_of_before}};
inline constexpr Key<Fraction> volume_lost{{.name = "volume lost",
                                            .help = "water taken off by concentration so far, of the volume before it; "
                                                    "the law counts it",
                                            .unit = "%",
                                            .valid = Range{0, 90},
                                            .usual = Range{0, 20},
                                            .source = guard,
                                            .behaves = counted_of_before}};
inline constexpr Key<Strength> sweetening_gained{{.name = "sweetening gained",
                                                  .help = "potential strength from what sweetened this wine so far; "
                                                          "the law counts it",
                                                  .unit = "% vol",
                                                  .valid = Range{0, 20},
                                                  .usual = Range{0, 4},
                                                  .source = guard,
                                                  .behaves = counted}};
inline constexpr Key<Fraction> amelioration{{.name = "amelioration",
                                             .help = "water that a sour must was stretched with so far, of the volume "
                                                     "since; the law counts it apart from that of treatments",
                                             .unit = "%",
                                             .valid = Range{0, 90},
                                             .usual = Range{0, 35},
                                             .source = guard,
                                             .behaves = counted}};
// Of lots that are joined: near enough what their musts together had.
inline constexpr Key<MassFraction> must_solids{
    {.name = "must solids",
     .help = "soluble solids of the must that it was, before water or "
             "sugar went in",
     .unit = "°Brix",
     .valid = Range{0, 80},
     .usual = Range{14, 35},
     .source = guard,
     .behaves = {.joins = Joins::as_mean, .thins = Thins::no, .kept = Kept::book}}};
inline constexpr Key<Acidity> volatile_acidity{{.name = "volatile acidity",
                                                .help = "free of sulfur dioxide and carbon dioxide",
                                                .unit = "g/L as acetic acid",
                                                .valid = Range{0, 10},
                                                .usual = Range{0, 1.2},
                                                .source = guard,
                                                .behaves = dissolved,
                                                .basis = "acetic acid"}};
inline constexpr Key<MassConcentration> tartaric_acid{{.name = "tartaric acid",
                                                       .help = "total, all its forms",
                                                       .unit = "g/L",
                                                       .valid = Range{0, 20},
                                                       .usual = Range{0, 9},
                                                       .source = guard,
                                                       .behaves = dissolved}};
inline constexpr Key<MassConcentration> malic_acid{{.name = "malic acid",
                                                    .help = "total, all its forms",
                                                    .unit = "g/L",
                                                    .valid = Range{0, 30},
                                                    .usual = Range{0, 12},
                                                    .source = guard,
                                                    .behaves = dissolved}};
inline constexpr Key<MassConcentration> lactic_acid{{.name = "lactic acid",
                                                     .help = "total, all its forms",
                                                     .unit = "g/L",
                                                     .valid = Range{0, 20},
                                                     .usual = Range{0, 6},
                                                     .source = guard,
                                                     .behaves = dissolved}};
inline constexpr Key<MassConcentration> citric_acid{{.name = "citric acid",
                                                     .help = "total, all its forms",
                                                     .unit = "g/L",
                                                     .valid = Range{0, 20},
                                                     .usual = Range{0, 1},
                                                     .source = guard,
                                                     .behaves = dissolved}};
inline constexpr Key<MassConcentration> succinic_acid{{.name = "succinic acid",
                                                       .help = "total, all its forms",
                                                       .unit = "g/L",
                                                       .valid = Range{0, 10},
                                                       .usual = Range{0, 2},
                                                       .source = guard,
                                                       .behaves = dissolved}};
inline constexpr Key<MassConcentration> glycerol{{.name = "glycerol",
                                                  .help = "by enzymatic analysis or chromatography",
                                                  .unit = "g/L",
                                                  .valid = Range{0, 40},
                                                  .usual = Range{4, 15},
                                                  .source = guard,
                                                  .behaves = dissolved}};
inline constexpr Key<MassConcentration> potassium{{.name = "potassium",
                                                   .help = "total",
                                                   .unit = "mg/L",
                                                   .valid = Range{0, 5000},
                                                   .usual = Range{300, 2500},
                                                   .source = guard,
                                                   .behaves = dissolved}};
inline constexpr Key<MassConcentration> calcium{{.name = "calcium",
                                                 .help = "total",
                                                 .unit = "mg/L",
                                                 .valid = Range{0, 1000},
                                                 .usual = Range{20, 200},
                                                 .source = guard,
                                                 .behaves = dissolved}};
inline constexpr Key<MassConcentration> sodium{{.name = "sodium",
                                                .help = "total",
                                                .unit = "mg/L",
                                                .valid = Range{0, 1000},
                                                .usual = Range{0, 100},
                                                .source = guard,
                                                .behaves = dissolved}};
inline constexpr Key<MassConcentration> free_so2{{.name = "free SO2",
                                                  .help = "free sulfur dioxide",
                                                  .unit = "mg/L",
                                                  .valid = Range{0, 500},
                                                  .usual = Range{0, 80},
                                                  .source = guard,
                                                  .behaves = dissolved}};
inline constexpr Key<MassConcentration> total_so2{{.name = "total SO2",
                                                   .help = "total sulfur dioxide",
                                                   .unit = "mg/L",
                                                   .valid = Range{0, 1000},
                                                   .usual = Range{0, 400},
                                                   .source = guard,
                                                   .behaves = dissolved}};
inline constexpr Key<MassConcentration> acetaldehyde{{.name = "acetaldehyde",
                                                      .help = "total, free and bound",
                                                      .unit = "mg/L",
                                                      .valid = Range{0, 1000},
                                                      .usual = Range{0, 150},
                                                      .source = guard,
                                                      .behaves = dissolved}};
inline constexpr Key<MassConcentration> assimilable_nitrogen{{.name = "assimilable nitrogen",
                                                              .help = "yeast-assimilable nitrogen",
                                                              .unit = "mg/L as nitrogen",
                                                              .valid = Range{0, 2000},
                                                              .usual = Range{50, 500},
                                                              .behaves = dissolved},
                                                             "nitrogen"};
inline constexpr Key<Turbidity> turbidity{{.name = "turbidity",
                                           .help = "nephelometric",
                                           .unit = "NTU",
                                           .valid = Range{0, 10000},
                                           .usual = Range{0, 800},
                                           .source = guard,
                                           .behaves = only_measured}};
inline constexpr Key<Conductivity> conductivity{{.name = "conductivity",
                                                 .help = "at the temperature on the lab slip",
                                                 .unit = "µS/cm",
                                                 .valid = Range{0, 20000},
                                                 .usual = Range{800, 4000},
                                                 .source = guard,
                                                 .behaves = only_measured}};
inline constexpr SeriesKey<Length, Absorbance> absorbance{{.name = "absorbance",
                                                           .help = "wavelength -> absorbance, with the optical path",
                                                           .unit = "AU",
                                                           .valid = Range{0, 20},
                                                           .x_unit = "nm",
                                                           .behaves = dissolved}};
inline constexpr SharesKey varieties{{.name = "varieties", .help = "share of each grape variety", .behaves = shared}};
inline constexpr SharesKey vintage{
    {.name = "vintage", .help = "year of harvest, or the share of each", .behaves = shared}};
inline constexpr SharesKey origin{
    {.name = "origin", .help = "lots or places that it was joined from", .behaves = shared}};

inline constexpr std::string_view classes[] = {"still", "sparkling", "liqueur"};
inline constexpr Choice wine_class{{.name = "class",
                                    .help = "still, sparkling, or liqueur wine, which holds spirit",
                                    .choices = classes,
                                    .source = law,
                                    .behaves = one_word}};
inline constexpr std::string_view colours[] = {"red", "white", "pink"};
inline constexpr Choice colour{{.name = "colour",
                                .help = "the colour class that the law goes by",
                                .choices = colours,
                                .source = law,
                                .behaves = one_word}};
inline constexpr std::string_view stages[] = {"must", "wine"};
inline constexpr Choice stage{{.name = "stage",
                               .help = "must before and during fermentation, wine after it",
                               .choices = stages,
                               .source = law,
                               .behaves = one_word}};
inline constexpr std::string_view zones[] = {"A", "B", "C I", "C II", "C III a", "C III b"};
inline constexpr Choice zone{
    {.name = "zone",
     .help = "wine-growing zone of the European Union that the grapes grew in",
     .choices = zones,
     .source = {.title = "Regulation (EU) No 1308/2013", .place = "Annex VII, appendix 1", .standing = "from memory"},
     .behaves = one_word}};

inline constexpr std::array<const Input*, 44> keys{&volume,
                                                   &temperature,
                                                   &density,
                                                   &soluble_solids,
                                                   &sugar,
                                                   &ethanol,
                                                   &ph,
                                                   &titratable_acidity,
                                                   &endpoint,
                                                   &acid_added,
                                                   &acid_removed,
                                                   &strength_gained,
                                                   &tirage_gained,
                                                   &volume_gained,
                                                   &volume_lost,
                                                   &sweetening_gained,
                                                   &amelioration,
                                                   &must_solids,
                                                   &water_added,
                                                   &treated_with,
                                                   &volatile_acidity,
                                                   &tartaric_acid,
                                                   &malic_acid,
                                                   &lactic_acid,
                                                   &citric_acid,
                                                   &succinic_acid,
                                                   &glycerol,
                                                   &potassium,
                                                   &calcium,
                                                   &sodium,
                                                   &free_so2,
                                                   &total_so2,
                                                   &acetaldehyde,
                                                   &assimilable_nitrogen,
                                                   &turbidity,
                                                   &conductivity,
                                                   &absorbance,
                                                   &varieties,
                                                   &vintage,
                                                   &origin,
                                                   &wine_class,
                                                   &colour,
                                                   &stage,
                                                   &zone};

// Those of them that `are` so.
template <auto are>
inline constexpr auto keys_that = [] {
  std::array<const Input*, static_cast<std::size_t>(std::count_if(keys.begin(), keys.end(), are))> some{};
  std::copy_if(keys.begin(), keys.end(), some.begin(), are);
  return some;
}();

constexpr bool is_counted_by_law(const Input* key) { return key->behaves.account == Account::counted; }

}  // namespace vatwright::lot
