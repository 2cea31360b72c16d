// What is measured of a lot, in the laboratory or on the tank.
#pragma once

#include "host/plugin/lot_behaviour.hpp"
#include "units/constants.hpp"

namespace vatwright::lot {

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
inline constexpr Key<MassConcentration> copper{{.name = "copper",
                                                .help = "total; without it what earlier steps brought counts",
                                                .unit = "mg/L",
                                                .valid = Range{0, 50},
                                                .usual = Range{0, 1},
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
// The ions that carry it; by the sum of what is measured of them.
inline constexpr std::string_view conducting[] = {
    ph.name,          titratable_acidity.name,  tartaric_acid.name, malic_acid.name,
    lactic_acid.name, potassium.name,           calcium.name,       sodium.name,
    total_so2.name,   assimilable_nitrogen.name};
inline constexpr Key<Conductivity> conductivity{{.name = "conductivity",
                                                 .help = "at the temperature on the lab slip",
                                                 .unit = "µS/cm",
                                                 .valid = Range{0, 20000},
                                                 .usual = Range{800, 4000},
                                                 .source = guard,
                                                 .behaves = {.of = conducting}}};
// Wavelengths: those of a laboratory's spectrophotometer, from the near ultraviolet on (common practice, no source).
// Sulfur dioxide bleaches the red pigments, and acid brings their colour out (Somers and Evans, from memory).
inline constexpr std::string_view colouring[] = {ph.name, free_so2.name, total_so2.name};
inline constexpr SeriesKey<Length, Absorbance> absorbance{
    {.name = "absorbance",
     .help = "wavelength -> absorbance, with the optical path",
     .unit = "AU",
     .valid = Range{0, 20},
     .x_unit = "nm",
     .x_valid = Range{200, 1100},
     .behaves = {.joins = Joins::by_volume, .thins = Thins::yes, .of = colouring}}};

}  // namespace vatwright::lot
