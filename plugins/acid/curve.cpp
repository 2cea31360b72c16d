#include "plugins/acid/curve.hpp"

#include "plugins/acid/wine.hpp"

namespace vatwright::acid::curve {
namespace {

constexpr double last_ph = 9.0, fine_step = 0.1, coarse_step = 0.5;

// Volumes of titrant for one sample; its own volume is not counted as dilution.
class Burette {
 public:
  Burette(const Inputs& in, const Wine& wine)
      : wine_(wine),
        degassed_(chemistry::degassed(wine.composition)),
        sample_(in[sample]),
        titrant_(in[titrant_concentration]) {}

  Acidity base(Ph ph) const { return chemistry::base_to(degassed_, ph, wine_.medium); }
  Volume titrant(Ph ph) const { return chemistry::charges(base(ph)) * sample_ / titrant_; }
  BufferCapacity capacity(Ph ph) const {
    chemistry::Composition there = degassed_;
    there.add_base(base(ph));
    return chemistry::buffer_capacity(there, ph, wine_.medium);
  }

 private:
  const Wine& wine_;
  chemistry::Composition degassed_;
  Volume sample_;
  AmountConcentration titrant_;
};

// From the lot's pH upwards, through every step that lies above it.
template <class Look>
void each_ph(Ph first, double step, Look look) {
  look(first);
  for (int i = static_cast<int>(first.value() / step) + 1; i * step <= last_ph + 1e-9; ++i)
    if (i * step > first.value() + 1e-6) look(i * step * ph_unit);
}

void draw(const Burette& burette, Ph first, Outcome& out) {
  Trace curve{.name = "predicted", .points = {}};
  each_ph(first, fine_step, [&](Ph ph) { curve.points.emplace_back(burette.titrant(ph).value(), ph.value()); });
  Trace marks{.name = "the lot, pH 7.0 and pH 8.2", .dots = true, .points = {}};
  for (const Ph& ph : {first, chemistry::oiv_endpoint, ph_of_endpoint(to_8)})
    marks.points.emplace_back(burette.titrant(ph).value(), ph.value());
  out.charts.push_back({.name = "Predicted titration curve",
                        .x = {"titrant", "mL", 2},
                        .y = {"pH", "pH", 2},
                        .traces = {std::move(curve), std::move(marks)}});
}

void tabulate(const Burette& burette, Ph first, Outcome& out) {
  Table table{
      .name = "Predicted titration",
      .columns = {{"at", "pH", 2}, {"titrant", "mL", 2}, {"base", "meq/L", 1}, {"buffer capacity", "mmol/L/pH", 1}},
      .rows = {}};
  each_ph(first, coarse_step, [&](Ph ph) {
    table.rows.push_back(
        {ph.value(), burette.titrant(ph).value(), burette.base(ph).value(), burette.capacity(ph).value()});
  });
  out.tables.push_back(std::move(table));
}

}  // namespace

Outcome run(const Inputs& in) {
  Outcome out;
  const Wine wine = read_wine(in, out);
  const Burette burette(in, wine);
  out.result(capacity, chemistry::buffer_capacity(wine.composition, wine.ph, wine.medium));
  out.result(titrant_to_7, burette.titrant(chemistry::oiv_endpoint));
  out.result(titrant_to_8, burette.titrant(ph_of_endpoint(to_8)));
  if (in.figures_only()) return out;
  draw(burette, wine.ph, out);
  tabulate(burette, wine.ph, out);
  out.note(
      "real titrations to pH 8.2 take more than this: phenols, amino acids and phosphate, which the model leaves out, "
      "titrate above pH 7; do not turn one end point into the other by this curve");
  out.note("the titrant's own volume is not counted as dilution");
  out.note(
      "buffer capacity is the tangent: base for a rise of pH at this very pH. The capacities of the Handbook of "
      "Enology "
      "are mean slopes of a whole titration, 15 to 40 % lower: do not hold the two against each other");
  return out;
}

}  // namespace vatwright::acid::curve
