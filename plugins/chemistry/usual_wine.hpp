// What a wine is taken to be, and its laboratory, where nobody says (common practice, no source, where nothing else is
// named).
#pragma once

#include "plugins/chemistry/acids.hpp"
#include "units/constants.hpp"

namespace vatwright::chemistry {

inline constexpr Strength usual_strength = 12.0 * percent_vol;
// At which pH and acidity are measured, whatever the tank has.
inline constexpr Temperature laboratory_temperature = celsius(20);

// Acids that every wine has beside tartaric and malic acid, where they were not measured.
struct UsualAcid {
  Acid acid;
  MassConcentration in_red, in_other;
};

// Citric and volatile acid: means of 1359 red and 3961 white wines (Cortez et al., Decision Support Systems 47 (2009)
// 547); wines that are not red take the mean of both colours, which differ less than the wines of one do.
// Succinic and lactic acid in red wine: what tartaric, malic, uronic, citric and phosphoric acid leave of the acids of
// 178 red wines (Forina et al., Vitis 25 (1986) 189), 28 meq/L, as equal masses (derived); in others the lower part of
// what handbooks give, 0.5 to 2 g/L of succinic acid (common practice, no source).
inline constexpr UsualAcid usual_acids[] = {
    {Acid::succinic, 1.0 * gram_per_litre, 0.6 * gram_per_litre},
    {Acid::lactic, 1.0 * gram_per_litre, 0.6 * gram_per_litre},
    {Acid::citric, 0.27 * gram_per_litre, 0.30 * gram_per_litre},
    {Acid::acetic, 0.53 * gram_per_litre, 0.41 * gram_per_litre},
};
inline constexpr std::string_view usual_acids_source =
    "Cortez et al. 2009 and Forina et al. 1986, and common practice for succinic and lactic acid of wines that are not "
    "red";

// More of them than this is in few wines: with more, a figure of the analysis has slipped, or an acid is missing.
struct MostOfAcid {
  Acid acid;
  MassConcentration most;
};
inline constexpr MostOfAcid most_of_acids[] = {
    {Acid::succinic, 2.0 * gram_per_litre},
    {Acid::lactic, 6.0 * gram_per_litre},
    {Acid::citric, 1.0 * gram_per_litre},
};

}  // namespace vatwright::chemistry
