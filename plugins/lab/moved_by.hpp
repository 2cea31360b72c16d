// What a plain dose does to the facts of its lot, beside what the law counts of it: what follows from a formula is
// reckoned, and of what nobody can reckon no stale figure stays.
#pragma once

#include "host/plugin/plugin.hpp"

#include <array>

namespace vatwright::lab {

// Joined to the changes of a calculation that doses so.
inline constexpr std::array<const Input*, 9> moved_facts{
    &lot::potassium,          &lot::sodium, &lot::calcium,   &lot::copper,    &lot::assimilable_nitrogen,
    &lot::titratable_acidity, &lot::ph,     &lot::turbidity, &lot::absorbance};

// By so much of the product in a volume of the lot; by none where that is not known. What a salt brings raises what the
// lot is known to have of it. A fining agent takes turbidity and colour along, a yeast product gives nitrogen that its
// label alone could tell, and fumaric acid moves the pH: those are not known any more.
void move_facts(const Inputs& in, const SubstanceFacts& of, MassConcentration product, Outcome& out);

// Copper that the step was told of stays known of the lot, where the step brings it none.
void keep_copper(Outcome& out);

// Whether it is seed for crystals, which take part of the acids and salts along: what was read is taken on until it is
// measured.
bool carry_on_past_seed(std::string_view substance, Outcome& out);
inline constexpr std::array<const Input*, 5> fallen{&lot::ph, &lot::titratable_acidity, &lot::tartaric_acid,
                                                    &lot::potassium, &lot::calcium};

// What a fining agent takes along: nothing is known of it until it is measured again.
inline constexpr std::array<const Input*, 2> fined_facts{&lot::turbidity, &lot::absorbance};
void forget_fined(const Inputs& in, Outcome& out);

}  // namespace vatwright::lab
