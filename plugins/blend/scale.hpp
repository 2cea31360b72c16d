// blend.scale: from a bench trial to what is weighed for the tank.
#pragma once

#include "plugins/blend/keys.hpp"
#include "plugins/lab/agree.hpp"
#include "plugins/lab/decolouring.hpp"
#include "plugins/lab/dosed_limits.hpp"
#include "plugins/lab/moved_by.hpp"
#include "plugins/lab/treatment_water.hpp"

namespace vatwright::blend::scale {

// What is tried at the bench as a stock of known strength. Acids, sulfites and sugar have calculations
// of their own, which also say what becomes of the wine; fumaric acid stands here as what holds bacteria back.
inline constexpr std::string_view substances[] = {"bentonite",        "gelatine",
                                                  "isinglass",        "casein",
                                                  "egg albumin",      "PVPP",
                                                  "activated carbon", "tannin",
                                                  "chitosan",         "yeast hulls",
                                                  "lysozyme",         "copper sulfate pentahydrate",
                                                  "ascorbic acid",    "potassium sorbate",
                                                  "fumaric acid"};
inline constexpr SubstanceChoice substance{
    {.name = "substance", .help = "what was tried", .choices = substances, .source = common_practice}};

inline constexpr Key<MassConcentration> stock{{.name = "stock",
                                               .help = "strength of the stock that was used at the bench",
                                               .unit = "g/L",
                                               .valid = Range{0.001, 500},
                                               .usual = Range{0.1, 200},
                                               .source = slip_guard}};
inline constexpr Key<Volume> aliquot{{.name = "aliquot",
                                      .help = "volume of stock in the glass that was chosen",
                                      .unit = "mL",
                                      .valid = Range{0.001, 1000},
                                      .usual = Range{0.05, 20},
                                      .source = slip_guard}};
inline constexpr Key<Volume> sample{{.name = "sample",
                                     .help = "volume of wine in that glass, without the stock",
                                     .unit = "mL",
                                     .valid = Range{5, 20000},
                                     .usual = Range{50, 1000},
                                     .source = slip_guard}};
inline constexpr Key<MassConcentration> slurry{
    {.name = "slurry",
     .help = "strength of what is made up for the tank; else that of the stock",
     .unit = "g/L",
     .valid = Range{0.1, 500},
     .usual = Range{5, 200},
     .source = slip_guard}};

// So many decimals that the least step of a balance, 10 mg, and of a small stock show.
inline constexpr Result<Mass> mass{
    {.name = "mass", .help = "for the tank, as the balance shows it", .unit = "kg", .decimals = 5, .decided = true}};
inline constexpr Result<MassConcentration> dose{
    {.name = "dose", .help = "with the rounded mass", .unit = "g/hL", .decimals = 2}};
inline constexpr Result<Volume> stock_volume{
    {.name = "stock volume", .help = "of the bench's stock that holds the mass", .unit = "L", .decimals = 3}};
inline constexpr Result<Volume> slurry_volume{
    {.name = "slurry volume", .help = "to make the mass up to", .unit = "L", .decimals = 3}};

inline constexpr std::array inputs{needs(substance),        needs(stock),
                                   needs(aliquot),          needs(sample),
                                   takes(slurry),           needs(lot::volume),
                                   takes(lot::copper),      takes(lot::treated_with),
                                   takes(lot::water_added), takes(lab::transmittance)};
inline constexpr auto changes =
    joined(std::array<const Input*, 2>{&lot::treated_with, &lot::water_added}, lab::moved_facts);
inline constexpr const ResultInfo* results[] = {&dose, &mass, &stock_volume, &slurry_volume};
inline constexpr std::string_view example[] = {"substance=bentonite", "stock=50 g/L", "aliquot=1.6 mL", "sample=100 mL",
                                               "volume=48 hL"};
inline constexpr Source sources[] = {conservation, common_practice};

inline constexpr Limit<MassConcentration> tannin_residual{
    {.name = "tannin residual", .help = "most tannin in the wine, as gallic acid", .unit = "g/L"}};
inline constexpr auto limits =
    joined(lab::topics_of<substances>(),
           std::array<const LimitInfo*, 3>{&lab::water_limit, &tannin_residual, &lab::transmittance_limit});

Outcome run(const Inputs& in);

inline constexpr Calculation calculation{.name = "scale",
                                         .help = "from a bench trial to what is weighed for the tank",
                                         .inputs = inputs,
                                         .results = results,
                                         .changes = changes,
                                         .limits = limits,
                                         .sources = sources,
                                         .example = example,
                                         .agree = lab::disagreements,
                                         .run = run,
                                         .label = "The bench trial is chosen: what do I weigh for the tank?"};

}  // namespace vatwright::blend::scale
