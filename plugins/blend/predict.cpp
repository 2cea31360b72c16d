#include "plugins/blend/predict.hpp"

#include "plugins/chemistry/sucrose.hpp"
#include "plugins/lab/analysis.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

namespace vatwright::blend {
namespace {

// What was added so far, of which a lot that says nothing was given none. It counts by the volumes that
// it was added to.
constexpr std::array<const Input*, 6> counted{&lot::acid_added,    &lot::acid_removed,  &lot::strength_gained,
                                              &lot::tirage_gained, &lot::volume_gained, &lot::water_added};
constexpr std::array<const Choice*, 3> words{&lot::stage, &lot::wine_class, &lot::zone};
constexpr std::array<const Input*, 2> not_additive{&lot::turbidity, &lot::conductivity};

std::optional<chemistry::Composition> dissolved_in(const Portion& portion, const chemistry::Part& part) {
  try {
    return chemistry::dissolved_in(part);
  } catch (const InputError& error) {
    throw InputError(fmt::format("of {}: {}", portion.lot->name, error.what()), error.hint());
  }
}

class Mixer {
 public:
  Mixer(std::string_view name, std::span<const Portion> portions, bool vetted) : portions_(portions), vetted_(vetted) {
    out_.lot.name = name;
  }

  Prediction predict() {
    mix_liquid();
    for (const Input* key : lot::amounts_per_volume) add_up(*key);
    add_up(lot::sugar);
    for (const Input* key : counted)
      if (any_has(*key)) set(*key, mean(*key));
    if (any_has(lot::treated_with)) out_.lot.set(lot::treated_with, mean_amounts(lot::treated_with));
    if (all_have(lot::temperature)) set(lot::temperature, mean(lot::temperature));
    mix_soluble_solids();
    mix_absorbance();
    for (const auto* key : {&lot::varieties, &lot::vintage})
      if (all_have(*key)) out_.lot.set(*key, mean_shares(*key));
    out_.lot.set(lot::origin, origins());
    for (const Choice* key : words) keep_word(*key);
    keep_colour();
    for (const Input* key : not_additive)
      if (any_has(*key)) lack(*key, "does not add up by volume: measure it");
    return std::move(out_);
  }

 private:
  double share(std::size_t i) const { return (portions_[i].volume / total_).value(); }
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
    const auto lacking = lots_where([&](const Row& lot) { return !lot.has(key); });
    if (lacking.empty()) return true;
    if (any_has(key)) lack(key, "not known of " + lacking);
    return false;
  }

  double mean(const Input& key) const {
    double sum = 0;
    for (std::size_t i = 0; i < portions_.size(); ++i)
      if (const Value* value = portions_[i].lot->find(key)) sum += share(i) * value->number;
    return sum;
  }
  // The mean by volume before contraction, divided by what the volume shrinks to.
  void add_up(const Input& key) {
    if (all_have(key)) set(key, mean(key) * shrunk_to_);
  }
  void set(const Input& key, double number) { out_.lot.analysis[std::string(key.name)].number = number; }

  void mix_liquid() {
    std::vector<chemistry::Part> parts;
    std::vector<std::optional<chemistry::Composition>> dissolved;
    for (const auto& portion : portions_) {
      parts.push_back(part_of(*portion.lot, portion.volume));
      if (auto& acids = parts.back().acids) acids->vetted = vetted_;
      dissolved.push_back(dissolved_in(portion, parts.back()));
      total_ += portion.volume;
    }
    out_.mixed = chemistry::blend(parts, dissolved);
    shrunk_to_ = (total_ / out_.mixed.volume).value();
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
    set(lot::titratable_acidity,
        out_.mixed.titratable ? out_.mixed.titratable->value() : mean(lot::titratable_acidity) * shrunk_to_);
    out_.lot.set(lot::endpoint, endpoint);
  }

  // A share of the mass, so that the heavier lot counts for more.
  void mix_soluble_solids() {
    if (!all_have(lot::soluble_solids)) return;
    double mass = 0, solids = 0;
    for (const auto& portion : portions_) {
      const auto brix = (*portion.lot)[lot::soluble_solids];
      const auto density =
          portion.lot->get(lot::density).value_or(chemistry::sucrose_density(brix, chemistry::strength_temperature));
      const double part = (portion.volume * density).value();
      mass += part;
      solids += part * brix.value();
    }
    set(lot::soluble_solids, solids / mass);
  }

  // Beer and Lambert: at one path the absorbances add up, at every wavelength that all lots have.
  void mix_absorbance() {
    if (!all_have(lot::absorbance)) return;
    const double path = *(*portions_.front().lot)[lot::absorbance].path;
    Series out{.points = {}, .path = path, .uncertainties = {}};
    for (const auto& [wavelength, absorbance] : (*portions_.front().lot)[lot::absorbance].points)
      if (const auto sum = absorbance_at(wavelength, path)) out.points.emplace_back(wavelength, *sum * shrunk_to_);
    if (out.points.empty()) return lack(lot::absorbance, "there is no wavelength that all lots were read at");
    out_.lot.set(lot::absorbance, std::move(out));
  }

  std::optional<double> absorbance_at(double wavelength, double path) const {
    constexpr double same = 1e-11;  // metres; readings stand at whole nanometres
    double sum = 0;
    for (std::size_t i = 0; i < portions_.size(); ++i) {
      const Series& series = (*portions_[i].lot)[lot::absorbance];
      const auto at = std::find_if(series.points.begin(), series.points.end(),
                                   [&](const auto& p) { return std::abs(p.first - wavelength) < same; });
      if (at == series.points.end()) return std::nullopt;
      sum += share(i) * at->second * path / *series.path;
    }
    return sum;
  }

  template <class Quantity>
  Amounts mean_amounts(const AmountsKey<Quantity>& key) const {
    Amounts out;
    for (std::size_t i = 0; i < portions_.size(); ++i)
      if (portions_[i].lot->has(key))
        for (const auto& [name, amount] : (*portions_[i].lot)[key]) out.emplace_back(name, share(i) * amount);
    return joined(out);
  }

  Shares mean_shares(const SharesKey& key) const {
    Shares out;
    for (std::size_t i = 0; i < portions_.size(); ++i)
      for (const auto& [name, part] : (*portions_[i].lot)[key]) out.emplace_back(name, share(i) * part);
    return joined(out);
  }

  // A lot that says nothing of its origin is its own; a blend hands on what it was made from.
  Shares origins() const {
    Shares out;
    for (std::size_t i = 0; i < portions_.size(); ++i) {
      const Row& lot = *portions_[i].lot;
      if (!lot.has(lot::origin))
        out.emplace_back(lot.name, share(i));
      else
        for (const auto& [name, part] : lot[lot::origin]) out.emplace_back(name, share(i) * part);
    }
    return joined(out);
  }

  void keep_word(const Choice& key) {
    if (!all_have(key)) return;
    const auto word = portions_.front().lot->get(key);
    if (lots_where([&](const Row& lot) { return lot[key] != word; }).empty())
      out_.lot.set(key, word);
    else
      lack(key, "the lots differ");
  }

  // White and pink make pink. With red in it, a blend may be of any colour.
  void keep_colour() {
    const auto some = [&](std::string_view word) {
      return !lots_where([&](const Row& lot) { return lot.get(lot::colour) == word; }).empty();
    };
    if (all_have(lot::colour) && some("white") && some("pink") && !some("red"))
      out_.lot.set(lot::colour, "pink");
    else
      keep_word(lot::colour);
  }

  std::span<const Portion> portions_;
  bool vetted_;
  Volume total_{};
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

Prediction predict(std::string_view name, std::span<const Portion> portions, bool vetted) {
  return Mixer(name, portions, vetted).predict();
}

Shares joined(const Shares& shares) {
  Shares out;
  for (const auto& one : shares) {
    const auto at = std::find_if(out.begin(), out.end(), [&](const auto& s) { return s.first == one.first; });
    if (at == out.end())
      out.push_back(one);
    else
      at->second += one.second;
  }
  std::stable_sort(out.begin(), out.end(), [](const auto& a, const auto& b) { return a.second > b.second; });
  return out;
}

}  // namespace vatwright::blend
