#include "plugins/blend/volume.hpp"

#include "plugins/chemistry/alcoholometry.hpp"
#include "plugins/chemistry/sucrose.hpp"
#include "units/parse.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

#include <cmath>

namespace vatwright::blend::volumes {
namespace {

// Density of what stands for the liquid: ethanol and water for a wine, sucrose and water for a must.
// Its ratio at two temperatures is that of the volumes.
Density stand_in(const Inputs& in, Temperature temperature) {
  if (in.has(lot::ethanol))
    return chemistry::ethanol_water_density(chemistry::ethanol_by_mass(in[lot::ethanol]), temperature);
  if (in.has(lot::soluble_solids)) return chemistry::sucrose_density(in[lot::soluble_solids], temperature);
  throw InputError("neither ethanol nor soluble solids are known: nothing says how the liquid expands",
                   "give 'ethanol' of a wine, or 'soluble solids' of a must");
}

Volume filled(const Inputs& in) {
  if (in[ullage] >= in[lot::volume])
    throw InputError(
        fmt::format("an ullage of {} leaves nothing of {}", print(in[ullage], "L", 1), print(in[lot::volume], "L", 1)),
        "'volume' is that of the full vessel when 'ullage' is given");
  return in[lot::volume] - in[ullage];
}

struct Filled {
  double bottles;
  Volume rest;
};

Filled fill(Volume volume, Volume bottle) {
  const double count = std::floor((volume / bottle).value() + hair);
  const Volume rest = volume - count * bottle;
  return {count, rest > Volume{} ? rest : Volume{}};
}

Volume volume_of(std::string_view bottle) { return coherent<Volume>(parse(bottle).value); }

void show_formats(Volume volume, Outcome& out) {
  Table table{.name = "bottles by format",
              .columns = {{"format", {}, 1}, {"full bottles", "1", 0}, {"rest", "mL", 0}},
              .rows = {}};
  for (const auto bottle : formats) {
    const auto [count, left] = fill(volume, volume_of(bottle));
    table.rows.push_back({std::string(bottle), count, left.value()});
  }
  out.tables.push_back(std::move(table));
}

void write_notes(const Inputs& in, Volume read, Volume corrected, Outcome& out) {
  out.note(fmt::format("{} at {} are {} at {}: {} by the expansion of {}", print(read, "L", 1),
                       print(in[lot::temperature], "°C", 1), print(corrected, "L", 1), print(in[reference], "°C", 1),
                       print(Fraction(corrected / read - 1.0), "%", 3),
                       in.has(lot::ethanol) ? "ethanol and water of its strength" : "sucrose and water"));
  out.note("extract and the vessel's own expansion are left out: a few hundredths of a per cent");
  if (!in.has(lot::ethanol)) return;
  if (in.has(lot::soluble_solids)) out.note("soluble solids are not used where ethanol is known");
}

}  // namespace

Outcome run(const Inputs& in) {
  Outcome out;
  const Volume read = filled(in);
  const double alone = (stand_in(in, in[lot::temperature]) / stand_in(in, in[reference])).value();
  const Volume corrected = read * (1 + (alone - 1) * (1 + in[expands_alone].value()));
  const Volume left = corrected * (1 - in[losses].value());
  const auto [count, short_of_one] = fill(left, volume_of(in[format]));
  out.result(at_reference, corrected);
  out.result(net, left);
  out.result(bottles, coherent<Fraction>(count));
  out.result(rest, short_of_one);
  if (in.figures_only()) return out;
  show_formats(left, out);
  write_notes(in, read, corrected, out);
  return out;
}

}  // namespace vatwright::blend::volumes
