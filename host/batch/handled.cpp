#include "host/batch/handled.hpp"

#include <algorithm>

namespace vatwright {
namespace {

void join_each(std::vector<const Substance*>& all, const std::vector<const Substance*>& more) {
  for (const auto* substance : more)
    if (std::find(all.begin(), all.end(), substance) == all.end()) all.push_back(substance);
}

void join_each(std::vector<ApartPair>& all, const std::vector<ApartPair>& more) {
  for (const auto& pair : more)
    if (std::none_of(all.begin(), all.end(),
                     [&](const ApartPair& known) { return known.one == pair.one && known.other == pair.other; }))
      all.push_back(pair);
}

}  // namespace

void Handled::join(const Worksheet& row) {
  for (const auto& step : row.steps) {
    join_each(added, step.added);
    join_each(reagents, step.reagents);
  }
  join_each(apart, row.weigh_out.apart);
}

void Handled::join(const Handled& others) {
  join_each(added, others.added);
  join_each(reagents, others.reagents);
  join_each(apart, others.apart);
}

}  // namespace vatwright
