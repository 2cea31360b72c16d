#include "plugins/sulfite/chart.hpp"

#include "plugins/chemistry/sulfite.hpp"
#include "plugins/sulfite/addition.hpp"
#include "units/parse.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace vatwright::sulfite {
namespace {

constexpr int intervals = 28;  // 0.05 of pH over the usual range

// The usual range of a key, coherent.
std::pair<double, double> usual(const Input& key) {
  const Unit unit = parse_unit(key.unit);
  return {unit.coherent(key.usual->low), unit.coherent(key.usual->high)};
}

}  // namespace

void draw_molecular(const Inputs& in, const NamedPk1& used, const std::vector<Stage>& stages, Outcome& out) {
  if (in.figures_only()) return;
  const double here = in[lot::ph].value();
  auto [low, high] = usual(lot::ph);
  low = std::min(low, here), high = std::max(high, here);

  Chart chart{.name = "Molecular SO2 against pH",
              .x = {"pH", lot::ph.unit, 2},
              .y = {"molecular SO2", addition::target_molecular.unit, 2},
              .traces = {},
              .band = usual(addition::target_molecular),
              .band_name = "usual target"};
  for (const auto& stage : stages) {
    const auto molecular = [&](double ph) {
      return (stage.free_so2 * chemistry::molecular_share(coherent<Ph>(ph), used.value)).value();
    };
    auto& curve = chart.traces.emplace_back();
    curve.name = fmt::format("{}, with {} of free SO2, pK1 {:.3f}", stage.name, print(stage.free_so2, "mg/L", 1),
                             used.value.value());
    for (int i = 0; i <= intervals; ++i) {
      const double ph = low + (high - low) * i / intervals;
      curve.points.emplace_back(ph, molecular(ph));
    }
    chart.traces.push_back(
        {.name = fmt::format("{}, at pH {:.2f}", stage.name, here), .dots = true, .points = {{here, molecular(here)}}});
  }
  out.charts.push_back(std::move(chart));
}

}  // namespace vatwright::sulfite
