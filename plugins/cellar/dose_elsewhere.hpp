// What cellar.dose hands over: substances that move the acidity, the sulfur dioxide, the sugar or the alcohol of a lot
// are dosed where that is reckoned, by a stated amount there.
#pragma once

#include "plugins/cellar/dose_keys.hpp"

namespace vatwright::cellar::plain_dose {

inline constexpr HandOver::Pair as_added[] = {{"dose", "add"}, {"dose on fruit", "add on fruit"}};
inline constexpr HandOver::Pair liquid_added[] = {
    {"dose", "add"}, {"dose on fruit", "add on fruit"}, {"liquid dose", "add liquid"}};
inline constexpr HandOver::Pair spirit_added[] = {{"liquid dose", "add"}, {"strength", "spirit"}};
inline constexpr HandOver::Pair of_product[] = {{"add as", "product"}};
inline constexpr HandOver::Pair sweetening_sugar[] = {{"substance", "sucrose"}};
inline constexpr HandOver::Pair sweetening_must[] = {{"substance", "rectified concentrated must"}};

inline constexpr std::string_view sulfites[] = {"potassium metabisulfite", "sodium metabisulfite",
                                                "sulfur dioxide gas"};
inline constexpr std::string_view sulfite_solution[] = {"sulfur dioxide solution"};
inline constexpr std::string_view acids[] = {"tartaric acid", "malic acid", "lactic acid", "citric acid",
                                             "citric acid monohydrate"};
inline constexpr std::string_view deacidifiers[] = {"calcium carbonate", "potassium bicarbonate", "potassium carbonate",
                                                    "double-salt treatment", "potassium tartrate"};
inline constexpr std::string_view sugars[] = {"sucrose", "rectified concentrated must", "tirage liqueur",
                                              "tirage liqueur of concentrated must"};
inline constexpr std::string_view sugar_for_wine[] = {"sweetening sugar"};
inline constexpr std::string_view must_for_wine[] = {"sweetening must"};
inline constexpr std::string_view spirits[] = {"grape spirit"};
inline constexpr std::string_view liqueurs[] = {"expedition liqueur"};
inline constexpr std::string_view waters[] = {"water"};

inline constexpr std::string_view sugar_readings[] = {"sugar", "density", "soluble solids"};

inline constexpr std::string_view by_mass = "give 'dose', its mass as it is weighed for a volume of the lot";

inline constexpr HandOver elsewhere[] = {
    {.input = &substance,
     .choices = sulfites,
     .to = "sulfite.addition",
     .renamed = as_added,
     .says = of_product,
     .instead = "give 'dose' or 'dose on fruit', of the product as it is weighed"},
    {.input = &substance,
     .choices = sulfite_solution,
     .to = "sulfite.addition",
     .renamed = liquid_added,
     .instead = "give 'liquid dose' and 'strength' of the solution, or 'dose', the sulfur dioxide wanted"},
    {.input = &substance,
     .choices = acids,
     .to = "acid.addition",
     .renamed = as_added,
     .says = of_product,
     .stays_if_unknown = true,
     .instead = by_mass},
    {.input = &substance,
     .choices = deacidifiers,
     .to = "acid.reduction",
     .renamed = as_added,
     .stays_if_unknown = true,
     .instead = by_mass},
    {.input = &substance,
     .choices = sugars,
     .to = "sugar.enrichment",
     .renamed = as_added,
     .stays_if_unknown = true,
     .one_reading = sugar_readings,
     .instead = by_mass},
    {.input = &substance,
     .choices = sugar_for_wine,
     .to = "sugar.sweetening",
     .renamed = as_added,
     .says = sweetening_sugar,
     .stays_if_unknown = true,
     .instead = by_mass},
    {.input = &substance,
     .choices = must_for_wine,
     .to = "sugar.sweetening",
     .renamed = as_added,
     .says = sweetening_must,
     .stays_if_unknown = true,
     .instead = by_mass},
    {.input = &substance,
     .choices = spirits,
     .to = "sugar.fortification",
     .renamed = spirit_added,
     .instead = "give 'liquid dose', such as 40 mL/L, and 'strength', such as 96 % vol"},
    {.input = &substance,
     .choices = liqueurs,
     .to = "sugar.dosage",
     .instead = "give 'add', the liqueur for each bottle, or 'target sugar', with what the liqueur holds"},
    {.input = &substance,
     .choices = waters,
     .to = "sugar.water",
     .instead = "give 'target soluble solids' or 'target titratable acidity': the law bounds water by what it is for"}};

}  // namespace vatwright::cellar::plain_dose
