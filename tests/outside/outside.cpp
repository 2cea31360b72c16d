// The smallest plugin: how many bottles a lot fills.
#include "host/plugin/plugin.hpp"

namespace {

using namespace vatwright;

constexpr Key<Volume> bottle{
    {.name = "bottle", .help = "volume of one bottle", .unit = "mL", .valid = Range{50, 20000}}};
constexpr Result<Fraction> bottles{{.name = "bottles", .help = "bottles that it fills", .unit = "1", .decimals = 0}};

Outcome fill(const Inputs& in) {
  Outcome out;
  out.result(bottles, Fraction(in[lot::volume] / in[bottle]));
  return out;
}

constexpr Need inputs[] = {needs(lot::volume), takes(bottle, "750 mL")};
constexpr const ResultInfo* results[] = {&bottles};
constexpr Calculation calculations[] = {
    {.name = "fill", .help = "bottles from a volume", .inputs = inputs, .results = results, .run = fill}};

}  // namespace

VATWRIGHT_PLUGIN("outside", "0.1.0", "a plugin from outside the tree", calculations);
