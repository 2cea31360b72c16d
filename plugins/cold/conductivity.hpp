// cold.conductivity: readings of conductivity to a verdict on potassium bitartrate.
#pragma once

#include "plugins/cold/criterion.hpp"

namespace vatwright::cold::conductivity {

inline constexpr std::string_view mini_contact = "mini-contact";
inline constexpr std::string_view saturation = "saturation temperature";
inline constexpr std::string_view methods[] = {mini_contact, saturation};
inline constexpr Choice method{
    {.name = "method",
     .help = "fall of conductivity with 10 g/L of bitartrate stirred in the cold, or rise with 4 g/L stirred in warm",
     .choices = methods,
     .source = handbook}};
inline constexpr Key<Conductivity> initial{{.name = "initial",
                                            .help = "conductivity before the bitartrate is stirred in",
                                            .unit = "µS/cm",
                                            .valid = Range{100, 20000},
                                            .usual = Range{800, 4000},
                                            .source = slip_guard}};
inline constexpr Key<Conductivity> final_reading{{.name = "final",
                                                  .help = "conductivity when it no longer changes",
                                                  .unit = "µS/cm",
                                                  .valid = Range{100, 20000},
                                                  .usual = Range{800, 4000},
                                                  .source = slip_guard}};
inline constexpr Key<Temperature> test_temperature{{.name = "test temperature",
                                                    .help = "of both readings; it must not move between them",
                                                    .unit = "°C",
                                                    .valid = Range{-10, 40},
                                                    .usual = Range{-4, 30},
                                                    .source = handbook}};
inline constexpr Key<Fraction> most_drop{{.name = "most drop",
                                          .help = "largest fall of a stable wine in the mini-contact test",
                                          .unit = "%",
                                          .valid = Range{0.1, 20},
                                          .usual = Range{3, 5},
                                          .source = {.title = handbook.title,
                                                     .place = "section 1.6.2: a fall above 5 % is unstable; stricter "
                                                              "cellars take 3 % (Hornsey 2007, in a textbook)"}}};
inline constexpr Key<Conductivity> chloride_reading{
    {.name = "chloride reading",
     .help = "what the meter showed in potassium chloride 0.02 mol/L; corrects both readings",
     .unit = "µS/cm",
     .valid = Range{500, 10000},
     .usual = Range{2000, 3000},
     .source = {.title = handbook.title, .place = "table 1.12"}}};
inline constexpr Key<Temperature> chloride_temperature{{.name = "chloride temperature",
                                                        .help = "of the potassium chloride when it was read",
                                                        .unit = "°C",
                                                        .valid = Range{15, 24},
                                                        .source = {.title = handbook.title, .place = "table 1.12"}}};

inline constexpr Result<Conductivity> drop{
    {.name = "drop", .help = "fall of the conductivity; negative when it rose", .unit = "µS/cm", .decimals = 0}};
inline constexpr Result<Fraction> drop_share{
    {.name = "relative drop", .help = "fall over the first reading", .unit = "%", .decimals = 2}};
inline constexpr Result<Temperature> saturation_temperature{
    {.name = "saturation temperature", .help = "of the second method", .unit = "°C", .decimals = 1}};

inline constexpr Model<TemperatureInterval> by_formula{
    {.name = "the saturation temperature by formula",
     .help = "a straight line from a rise of conductivity to a temperature",
     .unit = "K",
     .standard = 1,
     .source = {.title = "Am. J. Enol. Vitic. 56 (2005) 255",
                .place = "curves agree with experiment to 0.7 °C, 15 to 35 °C in port, and straight lines less well",
                .standing = "derived from an abstract"},
     .measure = "the saturation temperature at several temperatures"}};
inline constexpr const ModelInfo* models[] = {&by_formula};

inline constexpr Need inputs[] = {
    needs(method),           needs(initial),         needs(final_reading),    needs(test_temperature),
    takes(most_drop, "5 %"), takes(most_saturation), takes(chloride_reading), takes(chloride_temperature),
    takes(lot::colour),      takes(lot::wine_class)};
inline constexpr const ResultInfo* results[] = {&drop, &drop_share, &saturation_temperature};
inline constexpr std::string_view reagents[] = {"potassium bitartrate", "potassium chloride"};
inline constexpr Source sources[] = {
    handbook,
    howe,
    {.title = "Würdig et al. 1982 (white wine) and Maujean et al. (pink and red wine), saturation temperature",
     .standing = "seen in course notes; the minus sign of the second by analogy"},
    saturation_by_colour};
inline constexpr std::string_view example[] = {"method=saturation temperature", "initial=1830 µS/cm",
                                               "final=2790 µS/cm", "test temperature=30 °C", "colour=pink"};

Outcome run(const Inputs& in);

inline constexpr Calculation calculation{.name = "conductivity",
                                         .help = "readings of conductivity to a verdict on potassium bitartrate",
                                         .inputs = inputs,
                                         .results = results,
                                         .reagents = reagents,
                                         .models = models,
                                         .sources = sources,
                                         .example = example,
                                         .run = run,
                                         .label = "Does the conductivity test say that it is stable?"};

}  // namespace vatwright::cold::conductivity
