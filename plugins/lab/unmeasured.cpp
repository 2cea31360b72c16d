#include "plugins/lab/unmeasured.hpp"

#include "plugins/chemistry/usual_wine.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace vatwright::lab {
namespace {

using chemistry::Acid;

// Of the titratable acidity, where all acids are stated (common practice, no source).
constexpr Fraction most_unexplained = coherent<Fraction>(0.20);

MassConcentration mass_of(AmountConcentration amount, Acid acid) { return amount * chemistry::row(acid).molar_mass; }

std::string listed(const std::array<AmountConcentration, chemistry::acid_count>& amounts) {
  std::string list;
  for (const auto& acid : chemistry::acids) {
    const auto& amount = amounts[chemistry::index(acid.acid)];
    if (!(amount > AmountConcentration{})) continue;
    list += fmt::format("{}{} {}", list.empty() ? "" : ", ", acid.name, print(mass_of(amount, acid.acid), "g/L", 2));
  }
  return list;
}

// What the sheet took the unmeasured acids to be.
struct Taken {
  std::array<AmountConcentration, chemistry::acid_count> usual{}, rest{};
};

Taken taken(const chemistry::LabAnalysis& analysis, const chemistry::Inferred& found) {
  const auto assumed = chemistry::usually_unmeasured(analysis);
  double shares = 0;
  for (const double share : assumed.rest) shares += share;
  Taken out;
  for (std::size_t i = 0; i < chemistry::acid_count; ++i) {
    out.usual[i] = found.of_usual.value() * assumed.usual[i];
    out.rest[i] = assumed.rest[i] / shares * found.unmeasured;
  }
  return out;
}

void note_unusual(const Taken& acids, Outcome& out) {
  for (const auto& [acid, most] : chemistry::most_of_acids) {
    const std::size_t i = chemistry::index(acid);
    const auto mass = mass_of(acids.usual[i] + acids.rest[i], acid);
    if (mass > most)
      out.note(
          fmt::format("{} of {} would be left to explain the acidity, and few wines have more than {}: an acid is "
                      "missing from the analysis, or a figure has slipped",
                      print(mass, "g/L", 1), chemistry::row(acid).name, print(most, "g/L", 0)));
  }
}

bool all_stated(const chemistry::LabAnalysis& a) {
  return a.tartaric && a.malic && (a.must ? a.citric.has_value() : a.lactic && a.succinic);
}

void check_explained(const chemistry::LabAnalysis& analysis, const Taken& acids, const chemistry::Inferred& found,
                     const chemistry::Medium& medium, Outcome& out) {
  if (!all_stated(analysis)) return;
  chemistry::Composition explained = found.composition;
  for (std::size_t i = 0; i < chemistry::acid_count; ++i)
    explained.acids[i] = std::max(explained.acids[i] - acids.rest[i], AmountConcentration{});
  explained.rest = {};
  explained.rest = chemistry::base_to(explained, analysis.ph, medium);
  const Acidity by_stated = chemistry::titratable_acidity(explained, analysis.endpoint, medium);
  const Fraction missing = coherent<Fraction>(1 - by_stated.value() / analysis.titratable.value());
  const bool holds = missing <= most_unexplained;
  if (holds) return;
  out.checks.push_back({.name = "acidity that no stated acid explains",
                        .holds = false,
                        .value = figure(missing, "%", 0),
                        .limit = figure(most_unexplained, "%", 0),
                        .relation = "at most",
                        .source = "plausibility; common practice, no source",
                        .remedy = "look for a slipped point in the acids, and measure them or the titratable acidity "
                                  "again"});
}

}  // namespace

chemistry::Inferred infer(const Inputs& in, const chemistry::LabAnalysis& analysis, const chemistry::Medium& medium) {
  return chemistry::infer(analysis, medium, std::clamp(in[unmeasured_acids].value(), -1.0, 1.0));
}

void tell_unmeasured(const chemistry::LabAnalysis& analysis, const chemistry::Inferred& found,
                     const chemistry::Medium& medium, Outcome& out) {
  const Taken acids = taken(analysis, found);
  const std::string usual = listed(acids.usual), rest = listed(acids.rest);
  if (!usual.empty())
    out.note(
        fmt::format("acids that every wine has and nobody measured here are taken as {} wines usually have them: "
                    "{} ({})",
                    analysis.red ? "red" : "still", usual, chemistry::usual_acids_source));
  if (!rest.empty())
    out.note(fmt::format("{}acid that was not measured is taken to be {} (an assumption; measure it to be surer)",
                         usual.empty() ? "" : "beyond them, ", rest));
  note_unusual(acids, out);
  check_explained(analysis, acids, found, medium, out);
}

}  // namespace vatwright::lab
