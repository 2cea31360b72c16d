// label.ingredients: the list of ingredients, the allergens, and the wording for sulfites.
#pragma once

#include "plugins/label/keys.hpp"

namespace vatwright::label::ingredients {

inline constexpr Source list_source{.title = "Delegated Regulation (EU) 2019/33, Article 48a",
                                    .place = "as amended by 2023/1606; classes and numbers of 2019/934, Annex I",
                                    .standing = "seen in a secondary source; joining by 'and/or' from memory"};
inline constexpr Source no_aids{.title = "OIV-ECO 676-2024",
                                .place = "processing aids and their residues are no ingredients"};
inline constexpr Source allergens_source{.title = "Regulation (EU) No 1169/2011", .place = "Annex II and Article 21"};
inline constexpr Source us_source{.title = "27 CFR 4.32(e) and 4.32a",
                                  .place = "sulfites from 10 ppm; other allergens are voluntary, but then all of them"};

// By the names of the catalogue (host/substances/substances.yaml).
inline constexpr std::string_view substances[] = {"potassium metabisulfite",
                                                  "sodium metabisulfite",
                                                  "sulfur dioxide gas",
                                                  "sulfur dioxide solution",
                                                  "tartaric acid",
                                                  "malic acid",
                                                  "lactic acid",
                                                  "citric acid",
                                                  "citric acid monohydrate",
                                                  "fumaric acid",
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
                                                  "potassium bitartrate",
                                                  "calcium tartrate",
                                                  "carboxymethylcellulose",
                                                  "metatartaric acid",
                                                  "potassium polyaspartate",
                                                  "mannoproteins",
                                                  "gum arabic",
                                                  "bentonite",
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
                                                  "diammonium phosphate",
                                                  "ammonium sulfate",
                                                  "thiamine hydrochloride",
                                                  "yeast hulls",
                                                  "yeast autolysate",
                                                  "ascorbic acid",
                                                  "potassium sorbate",
                                                  "lysozyme",
                                                  "dimethyl dicarbonate",
                                                  "copper sulfate pentahydrate",
                                                  "copper citrate",
                                                  "carbon dioxide",
                                                  "active dry yeast",
                                                  "lactic acid bacteria",
                                                  "pectolytic enzyme",
                                                  "liquid pectolytic enzyme",
                                                  "pea protein",
                                                  "potato protein",
                                                  "nitrogen",
                                                  "argon"};
inline constexpr SubstanceChoice substance{
    {.name = "substance", .help = "what went into the must or the wine, at any time", .choices = substances}};
inline constexpr Need columns[] = {needs(substance)};
inline constexpr RowsKey treatments{{.name = "treatments",
                                     .help = "everything that was added to the lot, a row for each substance",
                                     .group = "treatments",
                                     .each = columns}};

inline constexpr Limit<MassConcentration> sulfite_declaration{
    {.name = "sulfite declaration", .help = "total sulfur dioxide from which the label says so", .unit = "mg/L"}};

inline constexpr Result<Fraction> listed{
    {.name = "listed", .help = "ingredients and additives on the list, grapes among them", .unit = "1", .decimals = 0}};
inline constexpr Result<Fraction> allergens{
    {.name = "allergens", .help = "that the label names", .unit = "1", .decimals = 0}};

inline constexpr Need inputs[] = {
    needs(treatments),           takes(lot::total_so2),     takes(lot::treated_with),     takes(lot::acid_added),
    takes(lot::strength_gained), takes(lot::tirage_gained), takes(lot::sweetening_gained)};
inline constexpr const ResultInfo* results[] = {&listed, &allergens};
inline constexpr const LimitInfo* limits[] = {&sulfite_declaration};
inline constexpr Source sources[] = {list_source, no_aids, allergens_source, us_source};
inline constexpr std::string_view example[] = {"total SO2=92 mg/L",
                                               "treatments=[{substance: tartaric acid}, {substance: potassium "
                                               "metabisulfite}, {substance: bentonite}, {substance: gum "
                                               "arabic}, {substance: nitrogen}]"};

Outcome run(const Inputs& in);

inline constexpr Calculation calculation{.name = "ingredients",
                                         .help = "list of ingredients, allergens and sulfites for the label",
                                         .inputs = inputs,
                                         .results = results,
                                         .limits = limits,
                                         .sources = sources,
                                         .example = example,
                                         .repeatable = false,  // words
                                         .run = run,
                                         .label = "What does the list of ingredients say?",
                                         .group = "label"};

}  // namespace vatwright::label::ingredients
