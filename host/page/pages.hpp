// The pages, one for each place on the way.
#pragma once

#include "host/page/answer.hpp"
#include "host/page/draft.hpp"
#include "host/page/work.hpp"

#include <string>
#include <vector>

namespace vatwright {

// The lot's name and what is known of it; on the first page also the other ways to begin.
Response lot_page(const Request& request, const Premises& on, const std::map<std::string, Slip>& slips = {});
// The lots of a recipe, to be looked through and added to.
Response lots_page(const Draft& draft);
// What is typed about a lot goes into the draft; the slips by field, when something is amiss.
std::map<std::string, Slip> take_lot(const Fields& typed, Draft& draft);

// All that can be asked, by group, or what a search finds of it.
Response questions_page(const Request& request, const Draft& draft, const Premises& on);

// The form of one step, and what it comes to; `beside`: another recipe whose figures stand beside those of this one.
Response work_page(const Work& work, const Premises& on, bool asked, const std::string& beside = {});

// What 'vatwright compute' was given, a line each, as a recipe of one lot and one step.
Draft draft_of_arguments(const Registry::Found& found, std::string_view lines);

// The worked example of a calculation as a recipe of its own.
Draft example_of(const Registry::Found& found);

// A colleague's sheet in JSON: whether it holds, what was compared, and its recipe to change a figure of.
Response verify_page(const std::string& text, const Premises& on);

// Raw readings of a laboratory and a mapping: judged results, and what to do with them next.
Response intake_page(const Request& request, const Premises& on);

// The last step of the recipe on every lot of it, a row each, as the command line's '--lots' has it.
Response each_lot_page(const Draft& draft, const Premises& on);

// A table of lots that was pasted: its columns matched and shown before they are taken.
Response table_page(const Request& request);

}  // namespace vatwright
