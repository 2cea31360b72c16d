// The words for what is to be done: additions, the work before them, or nothing.
#pragma once

#include "host/bench/worksheet.hpp"

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace vatwright {

// What goes in, as on its label: "sulfur dioxide solution (60.0 g/L SO2)".
std::string named(const Addition& addition, const Substance& substance);
// "dose 3.83 g/hL", and of what where that could be mistaken.
std::string dose_words(const Addition& addition);
// "2750 L taken out of lot A"; empty when it goes into the whole lot.
std::string part_of_lot(const StepSheet& step, const Addition& addition);
// Where it goes, and when: "lot T7", "2750 L taken out of lot A", "lot M1, portion 1 of 2, when ...".
std::string destination(const StepSheet& step, const Addition& addition);
// The same in a list, where it also says which step makes the lot first, and before the first addition of a chained
// step what to measure.
std::string listed_destination(const StepSheet& step, std::size_t addition);

// In the row of a lot, which names it already: " into " and where, when that is not this lot as a whole and at once.
std::string destination_in_a_row(std::string_view lot, const StepSheet& step, const Addition& addition);
// "step 2: " before what a row asks for, where the recipe has several steps.
std::string step_in_a_row(const Worksheet& sheet, std::size_t step);

// "first do step 1 (join)": before an addition to a lot that a step makes, or draws from; else empty.
std::string making_first(const StepSheet& step);
// "first mix, wait and measure pH": before the first addition of a chained step; else empty.
std::string measuring_in_short(const StepSheet& step);
// What is to be ticked off before the additions of a step, in full.
std::vector<std::string> tasks(const StepSheet& step);
// Where nothing is needed, and only there.
inline constexpr std::string_view nothing_to_add = "nothing to add";
// Why a step that could have done something does nothing: "nothing to add", "refused by a check of this step", "not
// dosed: step 1 is not to be done while its check fails"; empty when it does, or has nothing to do by its nature.
std::string idle_words(const StepSheet& step);
// The same of all steps, in the row of a lot: what was refused or held back, or that nothing at all goes in, though
// something could have.
std::vector<std::string> idle_in_a_row(const Worksheet& sheet);

// What the steps of a row took from its lot, as it was written: "volume 24 hL, pH 3.31"; and which of it is unusual.
std::string read_in_a_row(const Worksheet& sheet);
std::vector<std::string> unusual_in_a_row(const Worksheet& sheet);
// The same in a list, a reason a line: "nothing to add: lot T1 (step 1), lot T4 (step 4)".
std::vector<std::string> idle_steps(const Worksheet& sheet);

// A line of what a substance does: in English, or what a language says of it.
struct HazardLine {
  std::string language;  // empty: English
  std::string code, text;
  bool in_english = true;  // also where the language has no wording of its own

  std::string words() const {
    return (language.empty() ? "" : language + ": ") + (code.empty() ? "" : code + " ") + text;
  }
};
// Its signal word, where languages were asked for, then hazard by hazard; each followed by the other languages.
std::vector<HazardLine> hazard_lines(const Substance& substance);
// The first of the earlier steps that handles or adds it; its cautions stand there, once a sheet, for what is handled
// without being added.
std::optional<std::size_t> told_before(std::span<const StepSheet> earlier, const Substance& substance);
std::string told_words(const Substance& substance, std::size_t step);

// What label, register and rule ask for of the substances that a step adds, each line once.
inline constexpr std::string_view for_the_papers = "label, register and rule";
std::vector<std::string> papers_of(const StepSheet& step);

// All that a person must know before touching it: hazards, then cautions.
std::vector<std::string> all_cautions(const Substance& substance);
// Its hazards in a line, or its first caution: what a short list may not be without.
std::string first_cautions(const Substance& substance);

// Whether a list says more than the one addition that stands in its step.
bool wants_weigh_out(const WeighOut& list);
inline constexpr std::string_view weigh_out_words =
    "In this order; the work before an addition, all cautions and the handling stand with its step.";
// "420.2 g of potassium metabisulfite in all".
std::string total_words(const WeighOutTotal& total);
// "tartaric acid and potassium metabisulfite: ... [source]".
std::string apart_words(const ApartPair& pair);

}  // namespace vatwright
