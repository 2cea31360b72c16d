// A plugin's chart as a figure: inline SVG with a text alternative, and a legend below it.
#pragma once

#include "host/plugin/outcome.hpp"
#include "host/sheet/html_markup.hpp"

#include <string>

namespace vatwright {

// `id` is the figure's own on the page. A chart without a finite point is left out.
void write_chart(Markup& page, const Chart& chart, const std::string& id);

// In words what a chart shows: axes, traces by some of their points, the band.
std::string described(const Chart& chart);

}  // namespace vatwright
