#include "host/substances/strong.hpp"

#include "units/constants.hpp"
#include "units/parse.hpp"

#include <fmt/format.h>

#include <array>

namespace vatwright {
namespace {

constexpr double water = 1000;  // kg/m³

std::optional<SolutionStrength> strength_of(const Measured& read, MolarMass of) {
  if (read.dimension == dimension_of<Strength>()) return SolutionStrength{read.value, true};
  if (read.dimension == dimension_of<MassFraction>()) return SolutionStrength{read.value, false};
  if (read.dimension == dimension_of<MassConcentration>()) return SolutionStrength{read.value / water, false};
  if (read.dimension == dimension_of<AmountConcentration>() && of.value() > 0)
    return SolutionStrength{read.value * of.value() / water, false};
  return std::nullopt;
}

SolutionStrength bound(const Document& doc, const Node& node) {
  try {
    const Measured read = parse(node.text);
    if (read.dimension == dimension_of<Strength>()) return {read.value, true};
    if (read.dimension == dimension_of<MassFraction>()) return {read.value, false};
  } catch (const InputError& error) {
    doc.fail(node, error);
  }
  doc.fail(node.mark, "expected the strength that a hazard holds at, read '" + node.text + "'",
           "such as '25 % mass', of spirit '20 % vol'");
}

std::string number_in(const std::string& written) { return written.substr(0, written.find(' ')); }

}  // namespace

std::optional<SolutionStrength> strength_in(std::string_view words, MolarMass of) {
  if (words.empty()) return std::nullopt;  // of most substances, and what the reader throws is slow
  // "80 % mass" has three words, "60 g/L SO2" a quantity of two and what it counts.
  std::array<std::size_t, 2> ends{std::string_view::npos, std::string_view::npos};
  std::size_t at = words.find(' ');
  for (auto& end : ends) {
    if (at == std::string_view::npos) break;
    at = words.find(' ', at + 1);
    end = at;
  }
  for (const auto end : {ends[1], ends[0]}) {
    try {
      if (const auto strength = strength_of(parse(words.substr(0, end)), of)) return strength;
    } catch (const InputError&) {
      continue;  // fewer words may be a quantity
    }
  }
  return std::nullopt;
}

std::pair<std::string_view, std::string_view> apart_from_strength(std::string_view reagent) {
  const auto comma = reagent.find(", ");
  if (comma == std::string_view::npos) return {reagent, {}};
  return {reagent.substr(0, comma), reagent.substr(comma + 2)};
}

StrengthRange::StrengthRange(const Document& doc, const Node* from, const Node* below) {
  if (from != nullptr) {
    from_ = from->text;
    least_ = bound(doc, *from);
  }
  if (below != nullptr) {
    below_ = below->text;
    most_ = bound(doc, *below);
    if (from != nullptr && (most_.by_volume != least_.by_volume || !(most_.share > least_.share)))
      doc.fail(below->mark, "expected a strength above " + from_, "'from' is the weaker end, in the same unit");
  }
}

bool StrengthRange::holds_at(const SolutionStrength& strength) const {
  if (!from_.empty() && least_.by_volume == strength.by_volume && strength.share < least_.share) return false;
  return below_.empty() || most_.by_volume != strength.by_volume || strength.share < most_.share;
}

std::string StrengthRange::words() const {
  if (everywhere()) return {};
  if (below_.empty()) return "from " + from_;
  if (from_.empty()) return "below " + below_;
  return fmt::format("{} to {}", number_in(from_), below_);
}

}  // namespace vatwright
