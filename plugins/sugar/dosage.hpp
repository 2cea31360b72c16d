// sugar.dosage: the expedition liqueur of a sparkling wine, its sweetness term and its strength.
#pragma once

#include "plugins/lab/agree.hpp"
#include "plugins/lab/sweetness.hpp"
#include "plugins/lab/thinned_ph.hpp"
#include "plugins/sugar/keys.hpp"

namespace vatwright::sugar::dosage {

inline constexpr Source fixed_fill{.title =
                                       "balance of sugar and of alcohol at a fixed fill: as much wine is taken out "
                                       "of the bottle as liqueur goes in",
                                   .standing = "derived"};
inline constexpr Source doser{.title = "a doser gives a bottle its liqueur to 0.1 mL",
                              .standing = "common practice, no source"};

inline constexpr Key<MassConcentration> target{{.name = "target sugar",
                                                .help = "glucose and fructose of the finished wine",
                                                .unit = "g/L",
                                                .valid = Range{0, 200},
                                                .usual = Range{0, 60},
                                                .group = "wanted",
                                                .source = slip_guard}};
inline constexpr NameKey term{{.name = "sweetness term",
                               .help = "the word that the label is to have; the sugar is then the middle of what it "
                                       "leaves open to itself",
                               .group = "wanted"}};
inline constexpr Key<Volume> stated_liqueur{{.name = "add",
                                             .help = "a stated volume of liqueur for each bottle",
                                             .unit = "mL",
                                             .valid = Range{0.5, 5000},
                                             .usual = Range{1, 100},
                                             .group = "wanted",
                                             .source = slip_guard}};
inline constexpr Key<MassConcentration> liqueur_sugar{{.name = "liqueur sugar",
                                                       .help =
                                                           "of the liqueur, counted as glucose and fructose: sucrose "
                                                           "gives 1.0526 times its mass",
                                                       .unit = "g/L",
                                                       .valid = Range{20, 900},
                                                       .usual = Range{400, 790},
                                                       .group = "liqueur",
                                                       .source = slip_guard}};
inline constexpr Key<Strength> liqueur_ethanol{
    {.name = "liqueur ethanol",
     .help = "strength of the liqueur; 0 % vol for one without wine or spirit",
     .unit = "% vol",
     .valid = Range{0, 60},
     .usual = Range{0, 15},
     .group = "liqueur",
     .source = slip_guard}};
inline constexpr Key<Volume> bottle{{.name = "bottle",
                                     .help = "nominal content",
                                     .unit = "mL",
                                     .valid = Range{100, 20000},
                                     .usual = Range{187, 3000},
                                     .group = "bottle",
                                     .source = slip_guard}};

inline constexpr Limit<Strength> gain_limit{{.name = "strength gained by expedition liqueur",
                                             .help = "most that the actual strength may rise by the liqueur",
                                             .unit = "% vol"}};
inline constexpr Limit<Fraction> volume_limit{
    {.name = "expedition liqueur volume", .help = "most liqueur in the finished wine", .unit = "%"}};

inline constexpr Result<Volume> a_bottle{
    {.name = "liqueur a bottle", .help = "to set the doser to", .unit = "mL", .decimals = 1, .decided = true}};
inline constexpr Result<Volume> in_all{{.name = "liqueur", .help = "for the whole lot", .unit = "L", .decimals = 2}};
inline constexpr Result<MassConcentration> sugar_after{{.name = "sugar", .help = "after it", .unit = "g/L"}};
inline constexpr Result<Strength> ethanol_after{
    {.name = "ethanol", .help = "after it", .unit = "% vol", .decimals = 2}};

inline constexpr Model<Volume> doser_gives{
    {.name = "the doser",
     .help = "what it gives a bottle beside what it is set to",
     .unit = "mL",
     .standard = 0.06,
     .source = {.title = "0.1 mL up or down, equally likely in between (JCGM 100, 4.3.7)",
                .standing = "common practice, no source"},
     .measure = "what the doser gives, by weighing ten bottles"}};
inline constexpr const ModelInfo* models[] = {&doser_gives, &lab::unmeasured_acids};

inline constexpr std::string_view expedition_liqueur = "expedition liqueur";

inline constexpr auto inputs = joined(
    std::array{needs(lot::volume), needs(lot::sugar), needs(lot::ethanol), needs(liqueur_sugar), needs(liqueur_ethanol),
               takes(target), takes(term), takes(stated_liqueur), takes(bottle, "750 mL"), takes(lot::wine_class),
               takes(lot::stage), takes(lot::dosage_gained), takes(lot::liqueur_added)},
    lab::ph_inputs);
inline constexpr const Input* wanted[] = {&target, &term, &stated_liqueur};
inline constexpr OneOf one_of[] = {wanted};
inline constexpr const ResultInfo* results[] = {&a_bottle, &in_all, &sugar_after, &ethanol_after};
inline constexpr const Input* changes[] = {&lot::volume,         &lot::sugar,         &lot::ethanol,      &lot::ph,
                                           &lot::soluble_solids, &lot::dosage_gained, &lot::liqueur_added};
inline constexpr const LimitInfo* limits[] = {&gain_limit, &volume_limit};
inline constexpr std::string_view reagents[] = {expedition_liqueur};
inline constexpr Source sources[] = {fixed_fill, doser};
inline constexpr std::string_view example[] = {
    "volume=750 L",       "sugar=1 g/L",     "ethanol=12 % vol", "liqueur sugar=625 g/L", "liqueur ethanol=9 % vol",
    "target sugar=8 g/L", "class=sparkling", "stage=wine"};

Outcome run(const Inputs& in);

inline constexpr Calculation calculation{.name = "dosage",
                                         .help = "expedition liqueur for a sweetness, a bottle and in all",
                                         .inputs = inputs,
                                         .one_of = one_of,
                                         .results = results,
                                         .changes = changes,
                                         .limits = limits,
                                         .reagents = reagents,
                                         .models = models,
                                         .sources = sources,
                                         .example = example,
                                         .agree = lab::disagreements,
                                         .run = run,
                                         .label = "How much expedition liqueur goes into a bottle?",
                                         .group = "sparkling"};

}  // namespace vatwright::sugar::dosage
