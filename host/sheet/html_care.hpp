// How a substance harms and how it is handled, on a page.
#pragma once

#include "host/sheet/html_markup.hpp"
#include "host/substances/catalogue.hpp"

namespace vatwright {

// Cautions and handling side by side, under a heading of rank 3.
void write_care(Markup& page, const Substance& substance);

// A box of its own for one that is handled without being added.
void write_with_care(Markup& page, const Substance& substance);

}  // namespace vatwright
