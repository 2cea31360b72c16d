#include "plugins/chemistry/mixing.hpp"

#include "units/error.hpp"

namespace vatwright::chemistry {
namespace {

Volume sum_of(std::span<const Part> parts) {
  if (parts.empty()) throw InputError("a blend of nothing", "name its lots, with the volume or share of each");
  Volume sum{};
  for (const auto& part : parts) {
    if (!(part.volume > Volume{}))
      throw InputError("a part of a blend without volume", "give it a volume, or leave it out");
    sum += part.volume;
  }
  return sum;
}

// Mass adds up, volume does not: as much ethanol and water as all parts hold, and the room that it takes.
void mix_ethanol(std::span<const Part> parts, Blend& out) {
  Mass mass{}, ethanol{};
  Volume apart{};
  for (const auto& part : parts) {
    if (!part.ethanol) return;
    const auto liquid = ethanol_water(part.volume, *part.ethanol);
    mass += liquid.mass;
    ethanol += liquid.mass * liquid.ethanol.value();
    apart += part.volume;
  }
  const MassFraction share = coherent<MassFraction>((ethanol / mass).value());
  out.ethanol = strength_of(share);
  out.contraction = apart - mass / ethanol_water_density(share, strength_temperature);
  out.volume = apart - *out.contraction;
}

void mix_density(std::span<const Part> parts, Blend& out) {
  Mass mass{};
  for (const auto& part : parts) {
    if (!part.density) return;
    mass += part.volume * *part.density;
  }
  out.density = mass / out.volume;
}

void pour(const Composition& from, double share, Composition& into) {
  for (std::size_t i = 0; i < acid_count; ++i) into.acids[i] += share * from.acids[i];
  for (std::size_t i = 0; i < ion_count; ++i) into.ions[i] += share * from.ions[i];
  into.rest += share * from.rest;
}

std::optional<Strength> acid_strength(std::span<const Part> parts, const Blend& out) {
  if (out.ethanol) return out.ethanol;
  Strength sum{};
  for (const auto& part : parts) sum += (part.volume / out.volume).value() * part.ethanol.value_or(part.taken_ethanol);
  return sum;
}

// The end point that all parts were titrated to: acidities to pH 7 and to pH 8.2 are different quantities,
// and what titrates between the two is not in the acid model.
std::optional<Ph> common_endpoint(std::span<const Part> parts) {
  const Ph first = parts.front().acids->endpoint;
  for (const auto& part : parts)
    if (part.acids->endpoint != first) return std::nullopt;
  return first;
}

void mix_acids(std::span<const Part> parts, std::span<const std::optional<Composition>> dissolved, Blend& out) {
  Composition all;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    if (!dissolved[i]) return;
    pour(*dissolved[i], (parts[i].volume / out.volume).value(), all);
  }
  const Medium medium(*acid_strength(parts, out), strength_temperature);
  out.ph = equilibrium(all, medium).ph;
  if (const auto endpoint = common_endpoint(parts)) out.titratable = titratable_acidity(all, *endpoint, medium);
  out.dissolved = all;
}

}  // namespace

Medium medium_of(const Part& part) { return Medium(part.ethanol.value_or(part.taken_ethanol), strength_temperature); }

std::optional<Composition> dissolved_in(const Part& part) {
  if (!part.acids || part.ethanol.value_or(part.taken_ethanol) > most_acid_strength) return std::nullopt;
  return infer(*part.acids, medium_of(part), part.leaning).composition;
}

Blend blend(std::span<const Part> parts, std::span<const std::optional<Composition>> dissolved) {
  Blend out{.volume = sum_of(parts)};
  mix_ethanol(parts, out);
  mix_density(parts, out);
  mix_acids(parts, dissolved, out);
  return out;
}

Blend blend(std::span<const Part> parts) {
  std::vector<std::optional<Composition>> dissolved;
  dissolved.reserve(parts.size());
  for (const auto& part : parts) dissolved.push_back(dissolved_in(part));
  return blend(parts, dissolved);
}

}  // namespace vatwright::chemistry
