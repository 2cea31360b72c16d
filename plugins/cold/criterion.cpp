#include "plugins/cold/criterion.hpp"

#include <fmt/format.h>

namespace vatwright::cold {
namespace {

// White wine, and wine of unknown colour: the strictest of the still ones.
constexpr Temperature white = celsius(12.5);

}  // namespace

// Each figure stands here alone: the check shows it, the source says where it is from.
Criterion criterion_of(const Inputs& in) {
  if (const auto given = in.get(most_saturation)) return {*given, "as given", "criterion as given"};
  if (in.get(lot::wine_class) == "sparkling")
    return {celsius(8), "sparkling", "Handbook of Enology, vol. 2, section 1.6: to be stable at -4 °C, at 12.5 % vol"};
  const auto colour = in.get(lot::colour);
  if (colour == "red")
    return {celsius(22), "red",
            "practice limit for red wine, the lower end of what is in use, by phenolics: trade notes, not confirmed"};
  if (colour == "pink") return {celsius(14), "pink", "practice limit for pink wine: trade notes, not confirmed"};
  if (colour == "white") return {white, "white", "practice limit for white wine: trade notes, not confirmed"};
  return {white, "colour not given",
          "practice limit for white wine, since no colour was given: trade notes, not confirmed"};
}

Check saturation_check(std::string_view name, Temperature found, const Criterion& criterion, std::string_view remedy) {
  constexpr TemperatureInterval hair = 1e-6 * kelvin;
  const bool holds = found <= criterion.most + hair;
  return {.name = fmt::format("{} ({})", name, criterion.kind),
          .holds = holds,
          .value = figure(found, "°C", 1),
          .limit = figure(criterion.most, "°C", 1),
          .relation = "at most",
          .source = std::string(criterion.source),
          .remedy = holds ? std::string() : std::string(remedy)};
}

}  // namespace vatwright::cold
