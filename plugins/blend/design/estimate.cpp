#include "plugins/blend/design/estimate.hpp"

#include "units/parse.hpp"

#include <stdexcept>

namespace vatwright::blend::design {
namespace {

template <class Test>
bool any_wish(const Problem& problem, const Test& test) {
  for (const auto* list : {&problem.bounds, &problem.profile})
    for (const auto& bound : *list)
      if (test(*bound.on)) return true;
  return false;
}

chemistry::Medium medium_of(const Prediction& prediction, const Lots& from, const Mixture& shares) {
  if (prediction.mixed.ethanol) return chemistry::Medium(*prediction.mixed.ethanol, chemistry::strength_temperature);
  Strength sum{};
  for (std::size_t i = 0; i < shares.size(); ++i) {
    if (!(shares[i] > 0)) continue;
    const auto part = part_of(from.row(i), shares[i] * litre);
    sum += shares[i] * part.ethanol.value_or(part.taken_ethanol);
  }
  return chemistry::Medium(sum, chemistry::strength_temperature);
}

}  // namespace

double step_in_unit(const Input& key) {
  for (const auto& [known, size] : boundable)
    if (known == &key) return size;
  throw std::logic_error("no step for '" + std::string(key.name) + "'");
}

double step(const Input& key) { return parse_unit(key.unit).slope(0) * step_in_unit(key); }

double at(const Line& line, const Mixture& shares) {
  double sum = 0;
  for (std::size_t i = 0; i < line.size(); ++i) sum += line[i] * shares[i];
  return sum;
}

Lots::Lots(const Problem& problem) : problem_(&problem) {
  if (any_wish(problem, is_colour)) tints_.emplace(problem);
  if (!any_wish(problem, [](const Input& key) { return &key == &lot::ph; })) return;
  for (const auto& lot : problem.lots) {
    try {
      dissolved_.push_back(chemistry::dissolved_in(part_of(*lot.row, 1.0 * litre)));
    } catch (const InputError& error) {
      throw InputError("lot '" + lot.name() + "': " + error.what(), error.hint());
    }
    if (!dissolved_.back())
      throw InputError("the pH of a blend with lot '" + lot.name() + "' cannot be predicted: it is too strong",
                       "leave the lot out: the acids' constants are known up to 20 % vol");
  }
}

Prediction Lots::blend(const Mixture& shares) const {
  std::vector<Portion> portions;
  for (std::size_t i = 0; i < shares.size(); ++i)
    if (shares[i] > 0) portions.push_back({&row(i), shares[i] * problem_->volume});
  return predict("design", portions);
}

Estimate::Estimate(const Lots& from, Mixture shares)
    : lots_(&from), shares_(std::move(shares)), prediction_(from.blend(shares_)) {}

bool Estimate::knows(const Input& key) const {
  return is_colour(key) ? lots_->tints() != nullptr : prediction_.lot.analysis.contains(key.name);
}

double Estimate::swelling() const {
  Volume apart{};
  for (const double share : shares_) apart += share * lots_->volume();
  return (prediction_.mixed.volume / apart).value();
}

double Estimate::value(const Input& key) const {
  if (is_colour(key)) return component(lots_->tints()->of(shares_, swelling()), key);
  const auto at = prediction_.lot.analysis.find(key.name);
  if (at == prediction_.lot.analysis.end())
    throw InputError("the blend's " + std::string(key.name) + " cannot be predicted", "leave out what is bound of it");
  return at->second.number;
}

Line Estimate::above(const Input& key, double level) const {
  if (&key == &lot::ph) return ph_above(level);
  if (is_colour(key)) return colour_above(key, level);
  Line line;
  for (std::size_t i = 0; i < lots_->size(); ++i) line.push_back(lots_->row(i).find(key)->number);
  const double shift = value(key) - at(line, shares_) - level, one = step(key);
  for (double& slope : line) slope = (slope + shift) / one;
  return line;
}

Line Estimate::distance(const Input& key, double level) const {
  const double now = value(key);
  Line line = above(key, now);
  for (double& slope : line) slope += (now - level) / step(key);
  return line;
}

Line Estimate::colour_above(const Input& key, double level) const {
  const double now = value(key) - level, one = step(key);
  Line line;
  for (const auto& change : lots_->tints()->changes(shares_, swelling()))
    line.push_back((now + component(change, key)) / one);
  return line;
}

// At a pH that is held, with the activities of one liquid, charges add up: the base that brings the
// blend there is that of the lots by their shares. It is none where the blend has that pH by itself.
Line Estimate::ph_above(double level) const {
  const auto medium = medium_of(prediction_, *lots_, shares_);
  const auto& dissolved = prediction_.mixed.dissolved;
  if (!dissolved) throw InputError("the blend's pH cannot be predicted", "leave out what is bound of it");
  const auto here = medium.at_ionic_strength(chemistry::equilibrium(*dissolved, medium).ionic_strength);
  const auto base = [&](const chemistry::Composition& c, double ph, const chemistry::Medium& m) {
    return chemistry::base_to(c, ph * ph_unit, m).value();
  };
  Line line;
  for (std::size_t i = 0; i < lots_->size(); ++i) line.push_back(base(lots_->dissolved(i), level, here));
  const double target = base(*dissolved, level, medium);
  const double shift = target - at(line, shares_);
  // Base per step of pH, through the step; at the bound itself it is that of the next step.
  const double way = step(lot::ph);
  const double for_step = base(*dissolved, level + way, medium) - target;
  for (double& slope : line) slope = -(slope + shift) / for_step;
  return line;
}

}  // namespace vatwright::blend::design
