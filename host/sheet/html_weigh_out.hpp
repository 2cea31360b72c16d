// The weigh-out list of a page.
#pragma once

#include "host/bench/worksheet.hpp"
#include "host/sheet/html_markup.hpp"

namespace vatwright {

// Nothing when there is one addition and nothing to keep apart.
void write_weigh_out(Markup& page, const Worksheet& sheet);

}  // namespace vatwright
