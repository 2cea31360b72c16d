// cellar.dose: a plain dose of what needs no chemistry: so much for each hectolitre, or for each 100 kg of fruit; of an
// enzyme also so many units.
#pragma once

#include "plugins/cellar/dose_elsewhere.hpp"
#include "plugins/cellar/dose_keys.hpp"
#include "plugins/cellar/dose_law.hpp"
#include "plugins/cellar/dose_unreckoned.hpp"
#include "plugins/lab/agree.hpp"
#include "plugins/lab/decolouring.hpp"
#include "plugins/lab/dosed_limits.hpp"
#include "plugins/lab/moved_by.hpp"
#include "plugins/lab/treatment_water.hpp"

namespace vatwright::cellar::plain_dose {

inline constexpr Result<Mass> mass{
    {.name = "mass", .help = "of the product, as the balance shows it", .unit = "g", .decimals = 2, .decided = true}};
inline constexpr Result<Volume> volume{
    {.name = "product volume", .help = "as the cylinder shows it", .unit = "mL", .decimals = 1, .decided = true}};
inline constexpr Result<MassConcentration> given{
    {.name = "dose given", .help = "of what acts, with the rounded amount", .unit = "g/hL", .decimals = 2}};

inline constexpr std::array inputs{
    needs(substance),         takes(lot::volume),      takes(per_volume),      takes(liquid),
    takes(per_fruit),         takes(by_units),         takes(fruit),           takes(acts),
    takes(strength),          takes(activity),         takes(liquid_activity), takes(lot::copper),
    takes(lot::treated_with), takes(lot::water_added), takes(lot::stage),      takes(lot::colour),
    takes(lab::transmittance)};
inline constexpr const Input* doses[] = {&per_volume, &liquid, &per_fruit, &by_units};
inline constexpr OneOf one_of[] = {doses};
inline constexpr const ResultInfo* results[] = {&mass, &volume, &given};
inline constexpr auto changes =
    joined(std::array<const Input*, 2>{&lot::treated_with, &lot::water_added}, lab::moved_facts, unreckoned_facts);
inline constexpr Source sources[] = {{.title = "dose times volume or mass", .standing = "derived"}, practice};
inline constexpr std::string_view example[] = {"substance=pectolytic enzyme", "volume=48 hL", "dose=1.5 g/hL"};

// Every topic that some substance of the list meets, each once.
inline constexpr auto limits =
    joined(lab::topics_of<lab::plain_substances>(), std::array<const LimitInfo*, 1>{&lab::transmittance_limit});

Outcome run(const Inputs& in);

inline constexpr Calculation calculation{.name = "dose",
                                         .help = "what to weigh for a dose that its label or the winemaker says",
                                         .inputs = inputs,
                                         .one_of = one_of,
                                         .results = results,
                                         .changes = changes,
                                         .limits = limits,
                                         .reagents = lab::dosing_substances,
                                         .sources = sources,
                                         .example = example,
                                         .agree = lab::disagreements,
                                         .run = run,
                                         .label = "How much do I weigh for a dose that I know?",
                                         .group = "treatments",
                                         .hands_over = elsewhere};

}  // namespace vatwright::cellar::plain_dose
