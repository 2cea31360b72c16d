// The substances of the catalogue (host/substances/substances.yaml) that go into must and wine, by who doses them.
#pragma once

#include "host/plugin/plugin.hpp"

#include <algorithm>
#include <array>

namespace vatwright::lab {

// What they do to the lot is reckoned, each by a calculation of its own.
inline constexpr std::array<std::string_view, 23> reckoned_substances{"potassium metabisulfite",
                                                                      "sodium metabisulfite",
                                                                      "sulfur dioxide gas",
                                                                      "sulfur dioxide solution",
                                                                      "tartaric acid",
                                                                      "malic acid",
                                                                      "lactic acid",
                                                                      "citric acid",
                                                                      "citric acid monohydrate",
                                                                      "calcium carbonate",
                                                                      "potassium bicarbonate",
                                                                      "potassium carbonate",
                                                                      "double-salt treatment",
                                                                      "potassium tartrate",
                                                                      "sucrose",
                                                                      "rectified concentrated must",
                                                                      "tirage liqueur",
                                                                      "tirage liqueur of concentrated must",
                                                                      "expedition liqueur",
                                                                      "sweetening sugar",
                                                                      "sweetening must",
                                                                      "grape spirit",
                                                                      "water"};

// So much for a volume or for a mass of fruit, as their label says: cellar.dose.
inline constexpr std::array<std::string_view, 39> plain_substances{"bentonite",
                                                                   "gelatine",
                                                                   "isinglass",
                                                                   "casein",
                                                                   "egg albumin",
                                                                   "PVPP",
                                                                   "PVI/PVP",
                                                                   "activated carbon",
                                                                   "silica sol",
                                                                   "tannin",
                                                                   "chitosan",
                                                                   "pea protein",
                                                                   "potato protein",
                                                                   "yeast hulls",
                                                                   "yeast autolysate",
                                                                   "diammonium phosphate",
                                                                   "ammonium sulfate",
                                                                   "thiamine hydrochloride",
                                                                   "ascorbic acid",
                                                                   "potassium sorbate",
                                                                   "fumaric acid",
                                                                   "lysozyme",
                                                                   "dimethyl dicarbonate",
                                                                   "copper sulfate pentahydrate",
                                                                   "copper citrate",
                                                                   "potassium bitartrate",
                                                                   "calcium tartrate",
                                                                   "carboxymethylcellulose",
                                                                   "metatartaric acid",
                                                                   "potassium polyaspartate",
                                                                   "mannoproteins",
                                                                   "gum arabic",
                                                                   "active dry yeast",
                                                                   "lactic acid bacteria",
                                                                   "pectolytic enzyme",
                                                                   "liquid pectolytic enzyme",
                                                                   "carbon dioxide",
                                                                   "nitrogen",
                                                                   "argon"};

// All of them.
inline constexpr auto dosing_substances = [] {
  std::array<std::string_view, reckoned_substances.size() + plain_substances.size()> all{};
  std::copy(plain_substances.begin(), plain_substances.end(),
            std::copy(reckoned_substances.begin(), reckoned_substances.end(), all.begin()));
  return all;
}();

}  // namespace vatwright::lab
