// What a label says of sulfites and allergens, in the languages of the cellar.
#pragma once

#include "host/bench/worksheet.hpp"

#include <span>

namespace vatwright {

// Notes the words for what its additions bring, and for what the step itself says of the label.
void note_label_words(std::span<const Language> languages, StepSheet& step);

}  // namespace vatwright
