// Blocks on paper: each kind has its shape, in text and in HTML.
#pragma once

#include "host/sheet/blocks.hpp"
#include "host/sheet/html_markup.hpp"
#include "host/sheet/page.hpp"

namespace vatwright {

// Pictures are left out of a text: what they show stands in figures and tables.
void write_blocks(Page& page, const std::vector<blocks::Block>& all);
// `section`: the id of the section that they stand in; its title has that id and "-title".
void write_blocks(Markup& page, const std::vector<blocks::Block>& all, const std::string& section = {});

}  // namespace vatwright
