// A small plugin: how many bottles a lot fills.
#include "host/plugin/plugin.hpp"

#include <cmath>

namespace {

using namespace vatwright;

// What it takes: a name, what it means, the unit it is shown in, and the range that makes sense.
constexpr Key<Volume> bottle{
    {.name = "bottle", .help = "volume of one bottle", .unit = "mL", .valid = Range{50, 20000}}};
constexpr Key<Fraction> loss{
    {.name = "loss", .help = "share that stays in pipes and filters", .unit = "%", .valid = Range{0, 50}}};

// What it gives.
constexpr Result<Fraction> bottles{{.name = "bottles", .help = "full bottles", .unit = "1", .decimals = 0}};

// Volumes come as quantities: a mass in their place would not compile.
Outcome fill(const Inputs& in) {
  const Volume bottled = in[lot::volume] * (1.0 - in[loss].value());
  // A last bottle is not lost to the rounding of doubles.
  const double count = std::floor(Fraction(bottled / in[bottle]).value() * (1 + 1e-12));
  if (count < 1) throw InputError("the lot does not fill one bottle", "check the volume of the lot and of the bottle");
  Outcome out;
  out.result(bottles, Fraction(count));
  return out;
}

constexpr Need inputs[] = {needs(lot::volume), takes(bottle, "750 mL"), takes(loss, "0 %")};
constexpr const ResultInfo* results[] = {&bottles};
constexpr std::string_view example[] = {"volume=15 hL", "bottle=750 mL"};
constexpr Source sources[] = {{.title = "volume divided by volume", .standing = "derived"}};
constexpr Calculation calculations[] = {{.name = "fill",
                                         .help = "bottles that a lot fills",
                                         .inputs = inputs,
                                         .results = results,
                                         .sources = sources,
                                         .example = example,
                                         .run = fill}};

}  // namespace

VATWRIGHT_PLUGIN("bottling", "0.1.0", "how far a lot goes", calculations);
