#include "plugins/reagent/dilution.hpp"

#include "units/print.hpp"

#include <fmt/format.h>

#include <cmath>

namespace vatwright::reagent::dilution {
namespace {

// What is wanted over what there is, both counted alike.
double strength_left(const Inputs& in) {
  const auto amount = in.get(stock_concentration), wanted_amount = in.get(concentration);
  const auto mass = in.get(stock_content), wanted_mass = in.get(content);
  if (amount && wanted_amount) return *wanted_amount / *amount;
  if (mass && wanted_mass) return *wanted_mass / *mass;
  throw InputError(
      "the stock is counted by amount and the solution by mass, or the other way round",
      "give both in mol/L ('stock concentration', 'concentration') or both in g/L ('stock content', 'content')");
}

void tabulate(const Inputs& in, double left, int count, Outcome& out) {
  Table table{.name = "Series",
              .columns = {{"solution"}, {"share of the stock", "%", 4}, {"take", "mL", 3}, {"of"}},
              .rows = {}};
  double share = 1;
  for (int i = 1; i <= count; ++i) {
    share *= left;
    table.rows.push_back({std::to_string(i), share, (in[make_up_to] * left).value(),
                          i == 1 ? std::string("the stock") : fmt::format("solution {}", i - 1)});
  }
  out.tables.push_back(std::move(table));
}

}  // namespace

Outcome run(const Inputs& in) {
  const double left = strength_left(in);
  if (left > 1) throw InputError("what is wanted is stronger than the stock", "look whether the two are swapped");
  const double wanted_count = in[series].value();
  if (wanted_count != std::floor(wanted_count))
    throw InputError("'series' is no whole number", "write such as 'series: 3'");
  const Volume taken = in[make_up_to] * left;
  Outcome out;
  out.result(stock_volume, taken);
  out.result(water, in[make_up_to] - taken);
  if (in.figures_only()) return out;
  out.task(fmt::format("take {} of the stock by pipette, make up to {} with water, mix", print(taken, "mL", 3),
                       print(in[make_up_to], "mL", 1)));
  const int count = static_cast<int>(wanted_count);
  if (count > 1) tabulate(in, left, count, out);
  constexpr double small = 1;  // mL, that a pipette still measures well
  if (taken / millilitre < small)
    out.note("less than 1 mL is hard to measure well: go by two dilutions, or make more of it");
  out.note("volumes as they stand at the flask's temperature; that of mixing is left out by making up to the mark");
  return out;
}

}  // namespace vatwright::reagent::dilution
