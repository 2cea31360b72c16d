#include "plugins/cellar/tank.hpp"

#include "plugins/chemistry/vessel.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

#include <array>
#include <cmath>

namespace vatwright::cellar::tank {
namespace {

Length due(const Inputs& in, const Key<Length>& key) {
  if (const auto given = in.get(key)) return *given;
  throw InputError(fmt::format("a {} needs '{}'", in[shape], key.name), fmt::format("'{}' is {}", key.name, key.help));
}

chemistry::Bottom kind_of(std::string_view word) {
  if (word == cone) return chemistry::Bottom::cone;
  if (word == ellipsoid) return chemistry::Bottom::ellipsoid;
  if (word == shallow) return chemistry::Bottom::shallow_dish;
  if (word == deep) return chemistry::Bottom::deep_dish;
  return chemistry::Bottom::flat;
}

chemistry::Vessel vessel_of(const Inputs& in) {
  const auto word = in[shape];
  if (word == upright) {
    const auto kind = kind_of(in[bottom]);
    const bool deep_as_told = kind == chemistry::Bottom::cone || kind == chemistry::Bottom::ellipsoid;
    return chemistry::Upright{due(in, diameter), due(in, wall), kind, deep_as_told ? due(in, bottom_depth) : Length{}};
  }
  if (word == lying) return chemistry::Lying{due(in, diameter), due(in, diameter), due(in, length), in[end_depth]};
  if (word == oval) return chemistry::Lying{due(in, width), due(in, height), due(in, length), in[end_depth]};
  if (word == box) {
    if (in[slope] >= due(in, height))
      throw InputError(fmt::format("a floor that rises by {} leaves no wall of {}", print(in[slope], "m", 2),
                                   print(in[height], "m", 2)),
                       "'floor slope' is how much higher one end of the floor is");
    return chemistry::Box{due(in, length), due(in, width), due(in, height), in[slope]};
  }
  const chemistry::Barrel cask{due(in, bulge), due(in, head), due(in, length)};
  if (cask.head > cask.bulge)
    throw InputError(
        fmt::format("a head of {} is wider than the bulge of {}", print(cask.head, "m", 3), print(cask.bulge, "m", 3)),
        "'bulge diameter' is at the bung, the widest place");
  return cask;
}

// Steps that people read off a stick, and no more lines than a page has.
constexpr std::array steps{1.0, 2.0, 5.0, 10.0, 20.0, 50.0};
constexpr double most_lines = 60;

Table dip_table(const chemistry::Vessel& vessel) {
  const double deep_cm = 100 * chemistry::depth(vessel).value();
  double step = steps.back();
  for (const double one : steps)
    if (deep_cm / one <= most_lines) {
      step = one;
      break;
    }
  Table table{.name = "dip table",
              .columns = {{"dip", "cm", 0}, {"ullage", "cm", 1}, {"volume", "L", 1}, {"to the next line", "L", 1}},
              .rows = {}};
  const auto at = [&](double cm) { return chemistry::volume_to(vessel, coherent<Length>(cm / 100)).value(); };
  const int lines = static_cast<int>(std::floor(deep_cm / step + 1e-9));
  for (int line = 0; line <= lines; ++line) {
    const double cm = line * step;
    Cell next{};
    if (line < lines) next = at(cm + step) - at(cm);
    table.rows.push_back({cm / 100, (deep_cm - cm) / 100, at(cm), std::move(next)});
  }
  return table;
}

Length dip_of(const Inputs& in, Length depth) {
  const bool from_below = in.has(dip);
  const Length said = from_below ? in[dip] : in[ullage];
  if (said > depth)
    throw InputError(fmt::format("{} {} is more than the vessel is deep, which is {}",
                                 from_below ? "a dip of" : "an ullage of", print(said, "cm", 1), print(depth, "cm", 1)),
                     "look at the sizes of the vessel and at the unit of the reading");
  return from_below ? said : depth - said;
}

}  // namespace

Outcome run(const Inputs& in) {
  const auto vessel = vessel_of(in);
  const Length depth = chemistry::depth(vessel), at = dip_of(in, depth);
  const double true_to_it = 1 + in[true_to_its_shape].value();
  const Volume held = chemistry::volume_to(vessel, at) * true_to_it, full = chemistry::capacity(vessel) * true_to_it;
  if (!(held > Volume{})) throw InputError("the vessel is empty at this dip", "give the dip of the wine");
  // Half a centimetre up and down, within the vessel.
  const Length half = coherent<Length>(0.005);
  const Length low = std::max<Length>(at - half, Length{}), high = std::min<Length>(at + half, depth);
  Outcome out;
  out.result(volume, held);
  out.result(whole, full);
  out.result<Volume>(empty, full - held);
  out.result<Fraction>(fill, held / full);
  out.result<PerLength>(per_centimetre, (chemistry::volume_to(vessel, high) - chemistry::volume_to(vessel, low)) /
                                            (high - low) * true_to_it);
  out.change(lot::volume, held);
  if (in.figures_only()) return out;
  out.tables.push_back(dip_table(vessel));
  out.note(
      "sizes are inside and the vessel is taken as true to its shape and level: fittings, dents and a lean are "
      "not in it. Fill it once by a meter and correct the table");
  if (full - held > Volume{}) out.note("wine in a vessel that is not full needs its head space kept free of air");
  out.note("dip with a clean stick from the manhole, never by leaning in: a tank that has held wine or gas kills");
  return out;
}

}  // namespace vatwright::cellar::tank
