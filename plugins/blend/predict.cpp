#include "plugins/blend/predict.hpp"

#include "host/facts/join.hpp"
#include "plugins/chemistry/sucrose.hpp"
#include "plugins/lab/analysis.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace vatwright::blend {
namespace {

std::optional<chemistry::Composition> dissolved_in(const Portion& portion, const chemistry::Part& part) {
  try {
    return chemistry::dissolved_in(part);
  } catch (const InputError& error) {
    throw InputError(fmt::format("of {}: {}", portion.lot->name, error.what()), error.hint());
  }
}

class Mixer {
 public:
  Mixer(std::string_view name, std::span<const Portion> portions, bool vetted, double leaning)
      : portions_(portions), vetted_(vetted), leaning_(leaning) {
    out_.lot.name = name;
  }

  Prediction predict() {
    mix_liquid();
    for (const Input* key : lot::keys) join(*key);
    out_.lot.set(lot::origin, origins());
    keep_pink();
    return std::move(out_);
  }

 private:
  bool any_has(const Input& key) const {
    return std::any_of(portions_.begin(), portions_.end(), [&](const auto& p) { return p.lot->has(key); });
  }
  void lack(const Input& key, std::string why) { out_.unknown.push_back({std::string(key.name), std::move(why)}); }

  template <class Test>
  std::string lots_where(const Test& test) const {
    std::string names;
    for (const auto& portion : portions_)
      if (test(*portion.lot)) names += (names.empty() ? "" : ", ") + portion.lot->name;
    return names;
  }

  // What some have and some lack is unknown of the blend; what none has is not worth a word.
  bool all_have(const Input& key) {
    const auto lacking = facts::lacking(key, parts_);
    if (lacking.empty()) return true;
    if (any_has(key)) lack(key, "not known of " + lacking);
    return false;
  }

  // Each fact as it behaves. A lot that says nothing of its origin is its own.
  void join(const Input& key) {
    if (&key == &lot::origin) return;
    auto joined = facts::join(key, parts_, shrunk_to_);
    if (joined.value)
      out_.lot.analysis[std::string(key.name)] = std::move(*joined.value);
    else if (!joined.unknown.empty())
      lack(key, std::move(joined.unknown));
  }

  void mix_liquid() {
    std::vector<chemistry::Part> parts;
    std::vector<std::optional<chemistry::Composition>> dissolved;
    Volume total{};
    for (const auto& portion : portions_) total += portion.volume;
    for (const auto& portion : portions_) {
      parts_.push_back({portion.lot, (portion.volume / total).value(), density_of(*portion.lot)});
      parts.push_back(part_of(*portion.lot, portion.volume));
      if (auto& acids = parts.back().acids) acids->vetted = vetted_;
      parts.back().leaning = leaning_;
      dissolved.push_back(dissolved_in(portion, parts.back()));
    }
    out_.mixed = chemistry::blend(parts, dissolved);
    shrunk_to_ = (total / out_.mixed.volume).value();
    out_.lot.set(lot::volume, out_.mixed.volume);
    if (all_have(lot::ethanol))
      out_.lot.set(lot::ethanol, std::min<Strength>(*out_.mixed.ethanol, 100.0 * percent_vol));
    if (all_have(lot::density)) out_.lot.set(lot::density, *out_.mixed.density);
    set_acidity();
  }

  // pH wants both readings of every lot. Titratable acidity alone still adds up.
  void set_acidity() {
    set_titratable_acidity();
    if (out_.mixed.ph) return out_.lot.set(lot::ph, *out_.mixed.ph);
    if (!any_has(lot::ph)) return;
    const auto strong = lots_where(
        [](const Row& lot) { return lot.get(lot::ethanol).value_or(Strength{}) > chemistry::most_acid_strength; });
    const auto lacking =
        lots_where([](const Row& lot) { return !lot.has(lot::ph) || !lot.has(lot::titratable_acidity); });
    lack(lot::ph, lacking.empty() ? "the acids are not known in the spirit of " + strong
                                  : "pH or titratable acidity not known of " + lacking);
  }

  // To the end point that the lots have in common: to another one it is another quantity.
  void set_titratable_acidity() {
    if (!all_have(lot::titratable_acidity)) return;
    const auto endpoint = endpoint_of(*portions_.front().lot);
    const auto others = lots_where([&](const Row& lot) { return endpoint_of(lot) != endpoint; });
    if (!others.empty())
      return lack(lot::titratable_acidity, fmt::format("{}; titrate the blend", different_endpoints(portions_)));
    out_.lot.set(lot::titratable_acidity, out_.mixed.titratable.value_or(titratable_by_volume()));
    out_.lot.set(lot::endpoint, endpoint);
  }

  Acidity titratable_by_volume() const {
    Acidity sum{};
    for (const auto& part : parts_) sum += part.share * (*part.lot)[lot::titratable_acidity];
    return sum * shrunk_to_;
  }

  // For what is a share of the mass; by the refractometer where the density itself was not read.
  static Density density_of(const Row& lot) {
    if (const auto known = lot.get(lot::density)) return *known;
    if (!lot.has(lot::soluble_solids)) return Density{};
    return chemistry::sucrose_density(lot[lot::soluble_solids], chemistry::strength_temperature);
  }

  // A lot that says nothing of its origin is its own; a blend hands on what it was made from.
  Shares origins() const {
    Shares out;
    for (const auto& [row, share, density] : parts_)
      if (!row->has(lot::origin))
        out.emplace_back(row->name, share);
      else
        for (const auto& [name, part] : (*row)[lot::origin]) out.emplace_back(name, share * part);
    return facts::each_once(out);
  }

  // White and pink make pink. With red in it, a blend may be of any colour.
  void keep_pink() {
    const auto some = [&](std::string_view word) {
      return !lots_where([&](const Row& lot) { return lot.get(lot::colour) == word; }).empty();
    };
    if (!facts::lacking(lot::colour, parts_).empty() || !some("white") || !some("pink") || some("red")) return;
    out_.lot.set(lot::colour, "pink");
    std::erase_if(out_.unknown, [](const Unknown& unknown) { return unknown.what == lot::colour.name; });
  }

  std::span<const Portion> portions_;
  bool vetted_;
  double leaning_;
  std::vector<facts::Part> parts_;
  double shrunk_to_ = 1;  // a concentration rises by this when the volume shrinks
  Prediction out_;
};

}  // namespace

chemistry::Part part_of(const Row& lot, Volume volume) {
  chemistry::Part part{.volume = volume,
                       .ethanol = lot.get(lot::ethanol),
                       .density = lot.get(lot::density),
                       .taken_ethanol = lab::usual_ethanol(lot)};
  if (lot.has(lot::ph) && lot.has(lot::titratable_acidity)) part.acids = lab::analysis(lot);
  return part;
}

std::string_view endpoint_of(const Row& lot) { return lot.has(lot::endpoint) ? lot[lot::endpoint] : lot::to_7; }

std::string different_endpoints(std::span<const Portion> portions) {
  std::string list;
  for (const auto& portion : portions)
    list += fmt::format("{}{} to {}{}", list.empty() ? "" : ", ", portion.lot->name, endpoint_of(*portion.lot),
                        portion.lot->has(lot::endpoint) ? "" : " (not said, so taken)");
  return "the lots were titrated to different end points: " + list;
}

Prediction predict(std::string_view name, std::span<const Portion> portions, bool vetted, double leaning) {
  return Mixer(name, portions, vetted, leaning).predict();
}

}  // namespace vatwright::blend
