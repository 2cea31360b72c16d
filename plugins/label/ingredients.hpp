// label.ingredients: the list of ingredients, the allergens, and the wording for sulfites.
#pragma once

#include "plugins/lab/substances.hpp"
#include "plugins/label/keys.hpp"

namespace vatwright::label::ingredients {

inline constexpr Source list_source{.title = "Delegated Regulation (EU) 2019/33, Article 48a",
                                    .place = "as amended by 2023/1606; classes and numbers of 2019/934, Annex I",
                                    .standing = "seen in a secondary source; joining by 'and/or' from memory"};
inline constexpr Source no_aids{.title = "OIV-ECO 676-2024",
                                .place = "processing aids and their residues are no ingredients"};
inline constexpr Source allergens_source{.title = "Regulation (EU) No 1169/2011, Article 21 and Annex II",
                                         .standing = "seen in a secondary source"};
inline constexpr Source no_us_list{.title = "27 CFR 4.32", .place = "asks for none", .standing = "from memory"};
inline constexpr Source us_sulfites{.title = "27 CFR 4.32(e)", .place = "from 10 ppm"};
inline constexpr Source us_allergens{.title = "27 CFR 4.32a", .place = "voluntary, but then all of them"};

inline constexpr SubstanceChoice substance{{.name = "substance",
                                            .help = "what went into the must or the wine, at any time",
                                            .choices = lab::dosing_substances}};
inline constexpr Need columns[] = {needs(substance)};
inline constexpr RowsKey treatments{{.name = "treatments",
                                     .help = "what was added to the lot, a row for each substance; of a lot from the "
                                             "cellar book what the book has is there already",
                                     .group = "treatments",
                                     .behaves = {.kept = Kept::book},
                                     .each = columns}};

inline constexpr Limit<MassConcentration> sulfite_declaration{
    {.name = "sulfite declaration", .help = "total sulfur dioxide from which the label says so", .unit = "mg/L"}};

inline constexpr Result<Fraction> listed{
    {.name = "listed", .help = "ingredients and additives on the list, grapes among them", .unit = "1", .decimals = 0}};
inline constexpr Result<Fraction> allergens{
    {.name = "allergens", .help = "that the label names", .unit = "1", .decimals = 0}};

inline constexpr Need inputs[] = {
    takes(treatments),           takes(lot::total_so2),        takes(lot::treated_with), takes(lot::acid_added),
    takes(lot::strength_gained), takes(lot::tirage_gained),    takes(lot::sugar),        takes(lot::titratable_acidity),
    takes(lot::wine_class),      takes(lot::sweetening_gained)};
inline constexpr const ResultInfo* results[] = {&listed, &allergens};
inline constexpr const LimitInfo* limits[] = {&sulfite_declaration};
inline constexpr Source sources[] = {list_source, no_aids, allergens_source, no_us_list, us_sulfites, us_allergens};
inline constexpr std::string_view example[] = {"total SO2=92 mg/L", "sugar=1.6 g/L",
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
