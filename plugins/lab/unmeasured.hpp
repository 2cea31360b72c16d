// The acids of a lot that nobody measured: what they are taken to be, how much that matters, and whether it can be.
#pragma once

#include "host/plugin/plugin.hpp"
#include "plugins/chemistry/lab_analysis.hpp"

namespace vatwright::lab {

// As good as certain between the two ends (chemistry::end_of_unmeasured), and nowhere likelier than elsewhere: one
// standard uncertainty is 1/√3 of the way from the middle to an end.
inline constexpr Model<Fraction> unmeasured_acids{
    {.name = "the acids that nobody measured",
     .help = "usual acids of a wine, then tartaric and malic acid; 1 is an end of what they may be",
     .unit = "1",
     .standard = 0.577,
     .source = {.title = "JCGM 100, 4.3.7, between the two ends",
                .standing = "the ends are an assumption, held against six published wines and 178"},
     .measure = "tartaric, malic and lactic acid"}};

// What the lot holds. Throws InputError for readings that cannot be together.
chemistry::Inferred infer(const Inputs& in, const chemistry::LabAnalysis& analysis, const chemistry::Medium& medium);

// Notes what was taken for granted, in g/L; a check where every acid that matters is stated and much of the acidity is
// still unexplained.
void tell_unmeasured(const chemistry::LabAnalysis& analysis, const chemistry::Inferred& found,
                     const chemistry::Medium& medium, Outcome& out);

}  // namespace vatwright::lab
