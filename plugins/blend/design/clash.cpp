#include "plugins/blend/design/clash.hpp"

namespace vatwright::blend::program {
namespace {

std::vector<std::size_t> irreducible(std::size_t count, const Feasible& feasible) {
  std::vector<bool> kept(count, true);
  for (std::size_t i = 0; i < count; ++i) {
    kept[i] = false;
    if (feasible(kept)) kept[i] = true;
  }
  std::vector<std::size_t> out;
  for (std::size_t i = 0; i < count; ++i)
    if (kept[i]) out.push_back(i);
  return out;
}

std::vector<std::size_t> pair(std::size_t count, const Feasible& feasible) {
  for (std::size_t i = count; i-- > 0;)
    for (std::size_t j = count; j-- > i + 1;) {
      std::vector<bool> kept(count, false);
      kept[i] = kept[j] = true;
      if (!feasible(kept)) return {i, j};
    }
  return {};
}

}  // namespace

std::vector<std::size_t> clash(std::size_t count, const Feasible& feasible) {
  if (!feasible(std::vector<bool>(count, false))) return {};
  // One alone: the filter may have kept several of which none is enough, and dropped the one.
  for (std::size_t i = count; i-- > 0;) {
    std::vector<bool> kept(count, false);
    kept[i] = true;
    if (!feasible(kept)) return {i};
  }
  auto found = irreducible(count, feasible);
  constexpr std::size_t few = 2;
  if (found.size() > few)
    if (auto two = pair(count, feasible); !two.empty()) return two;
  return found;
}

}  // namespace vatwright::blend::program
