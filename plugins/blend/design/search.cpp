#include "plugins/blend/design/search.hpp"

#include "plugins/blend/design/clash.hpp"

#include <algorithm>
#include <cmath>

namespace vatwright::blend::design {
namespace {

constexpr int most_rounds = 24;
constexpr int free_rounds = 12;  // from then on bounds are only drawn in, and what keeps to them is taken
// Nodes of all searches among choices together: some seconds of work. One of them takes a part of it, if it has found
// anything by then; when all is used up, the choice of lots stands, and only their shares are still moved.
constexpr int most_nodes = 8000, parts = 4;
constexpr double agreement = 2e-7;   // of line and prediction, in steps
constexpr double too_little = 1e-9;  // a share that is the solver's rounding

// The shares of an answer, clear of rounding.
Mixture cleared(const program::Solution& solution, std::size_t count) {
  Mixture out(solution.values.begin(), solution.values.begin() + static_cast<std::ptrdiff_t>(count));
  double sum = 0;
  for (double& share : out) {
    if (share < too_little) share = 0;
    sum += share;
  }
  for (double& share : out) share /= sum;
  return out;
}

// Everything there is, to begin with.
Mixture everything(const Problem& problem) {
  Mixture out;
  double sum = 0;
  for (const auto& lot : problem.lots) sum += out.emplace_back(std::min(1.0, lot.most));
  if (!(sum > 0))
    throw InputError("none of the lots has any wine available",
                     "correct 'volume' of the lots, or 'available' of the step");
  for (double& share : out) share /= sum;
  return out;
}

double beyond(const Side& side, const Estimate& estimate) {
  const double over = (estimate.value(*side.key) - side.bound) / step(*side.key);
  return side.sense == Sense::at_most ? over : -over;
}

// How far line and prediction are apart at the new blend.
double disagreement(const Problem& problem, const Estimate& before, const Estimate& now) {
  double most = 0;
  const auto compare = [&](const Line& old_line, const Line& new_line) {
    most = std::max(most, std::abs(at(old_line, now.shares()) - at(new_line, now.shares())));
  };
  for (const auto& side : sides(problem))
    compare(before.above(*side.key, side.bound), now.above(*side.key, side.bound));
  if (!problem.for_cost)
    for (const auto& figure : problem.profile)
      compare(before.distance(*figure.on, *figure.low), now.distance(*figure.on, *figure.low));
  return most;
}

// What comes nearest to all bounds: the lines there are better ones to judge by.
std::optional<Mixture> nearest_to_bounds(const Formulation& f, std::size_t count) {
  program::Model model = f.only(std::vector<bool>(f.demands.size(), true));
  std::size_t place = 0;
  for (std::size_t i = 0; i < f.model.rows.size(); ++i) {
    auto& row = model.rows[place++];
    if (f.rows[i].demand == no_demand || f.demands[f.rows[i].demand].key == nullptr) continue;
    const double way = row.high < program::infinity ? -1 : 1;
    row.terms.push_back({model.add({.name = "beyond", .cost = 1}), way});
  }
  if (const auto solution = program::solve(model, {.enough = most_nodes / parts, .most = most_nodes}))
    return cleared(*solution, count);
  return std::nullopt;
}

// How far the figure of a demand can come while the others of `kept` hold.
std::optional<double> reachable(const Formulation& f, const Lots& known, const Demand& demand, std::size_t place,
                                std::vector<bool> kept) {
  if (demand.key == nullptr) return std::nullopt;
  kept[place] = false;
  program::Model model = f.only(kept);
  for (std::size_t i = 0; i < f.model.rows.size(); ++i)
    if (f.rows[i].demand == place)
      for (const auto& term : f.model.rows[i].terms)
        model.columns[term.column].cost = demand.sense == Sense::at_most ? term.coefficient : -term.coefficient;
  const auto solution = program::solve(model);
  if (!solution) return std::nullopt;
  return Estimate(known, cleared(*solution, known.size())).value(*demand.key);
}

NoBlend explain(const Formulation& f, const Lots& known) {
  const auto places = program::clash(
      f.demands.size(), [&](const std::vector<bool>& kept) { return program::solve(f.only(kept)).has_value(); });
  std::vector<bool> clashing(f.demands.size(), false);
  for (const auto place : places) clashing[place] = true;
  NoBlend out;
  const std::vector<bool> all(f.demands.size(), true);
  for (const auto place : places) {
    const auto& demand = f.demands[place];
    auto best = reachable(f, known, demand, place, all);
    if (!best) best = reachable(f, known, demand, place, clashing);
    out.clash.push_back({demand, best});
  }
  return out;
}

class Search {
 public:
  Search(const Problem& problem, const Lots& known)
      : problem_(problem), lots_(known), sides_(sides(problem)), tightening_(sides_.size(), 0.0) {}

  std::variant<Found, NoBlend> run() {
    Estimate estimate(lots_, everything(problem_));
    for (int round = 0; round < most_rounds; ++round) {
      auto formulation = formulate(problem_, estimate, tightening_);
      auto solution = solved(formulation.model);
      if (!solution) {
        const auto near = looked_again_++ < looks ? nearest_to_bounds(formulation, lots_.size()) : std::nullopt;
        if (!near) return round < free_rounds ? explain(formulation, lots_) : throw no_end();
        estimate = Estimate(lots_, *near);
        continue;
      }
      Estimate now(lots_, cleared(*solution, lots_.size()));
      const double apart = disagreement(problem_, estimate, now);
      const double worst = draw_in(now, round >= free_rounds);
      if (worst <= on_the_bound && (apart <= agreement || round >= free_rounds))
        return Found{std::move(now), std::move(formulation), std::move(*solution), last_choice_};
      estimate = std::move(now);
    }
    throw no_end();
  }

 private:
  static constexpr int looks = 2;

  // The program, within what is left of the work.
  std::optional<program::Solution> solved(const program::Model& model) {
    if (nodes_left_ <= 0 && last_choice_)
      if (auto held = program::solve(program::chosen_as(*last_choice_, model))) return held;
    const int most = std::max(nodes_left_, 1);
    auto solution = program::solve(model, {.enough = std::min(most_nodes / parts, most), .most = most});
    if (solution) nodes_left_ -= solution->nodes;
    if (solution) last_choice_ = solution;
    return solution;
  }

  static InputError no_end() {
    return InputError("no shares were found whose predicted blend keeps to the bounds",
                      "they leave too little room: widen the narrowest of them a little");
  }

  // The worst of the bounds, in steps; with `tighten`, those that are passed are drawn in as much.
  double draw_in(const Estimate& now, bool tighten) {
    double worst = 0;
    for (std::size_t i = 0; i < sides_.size(); ++i) {
      const double over = beyond(sides_[i], now);
      worst = std::max(worst, over);
      if (tighten && over > on_the_bound && !sides_[i].only) tightening_[i] += over;
    }
    return worst;
  }

  const Problem& problem_;
  const Lots& lots_;
  std::vector<Side> sides_;
  std::vector<double> tightening_;
  int looked_again_ = 0;
  int nodes_left_ = most_nodes;
  std::optional<program::Solution> last_choice_;
};

}  // namespace

std::variant<Found, NoBlend> search(const Problem& problem, const Lots& known) { return Search(problem, known).run(); }

}  // namespace vatwright::blend::design
