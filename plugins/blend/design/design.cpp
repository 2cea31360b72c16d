#include "plugins/blend/design/design.hpp"

#include "plugins/blend/checks.hpp"
#include "plugins/blend/design/report.hpp"
#include "plugins/blend/portions.hpp"

namespace vatwright::blend::design {
namespace {

std::vector<Portion> portions_of(const Problem& problem, const Mixture& shares) {
  std::vector<Portion> out;
  for (std::size_t i = 0; i < shares.size(); ++i)
    if (shares[i] > 0) out.push_back({problem.lots[i].row, shares[i] * problem.volume});
  return out;
}

}  // namespace

Outcome run(const Inputs& in) {
  Outcome out;
  const Problem problem = read(in, out);
  refuse_two_spellings(portions_of(problem, Mixture(problem.lots.size(), 1.0)));
  const Lots known(problem);
  const auto answer = search(problem, known);
  if (const auto* none = std::get_if<NoBlend>(&answer)) {
    report_clash(*none, out);
    return out;
  }
  const auto& found = std::get<Found>(answer);
  report(problem, found, out);
  NewLot blend = found.at.prediction().lot;
  for (const Choice* word : {&lot::colour, &lot::wine_class})
    if (in.has(*word)) blend.set(*word, in[*word]);
  const auto portions = portions_of(problem, found.at.shares());
  check_analysis(in, blend, portions, out);
  check_composition(in, blend, portions, out);
  check_label(in, blend, out);
  // It makes no lot that the host could hold back.
  out.task(out.holds() ? pump(portions, "one tank") : "do not join these lots yet: a check of this step fails");
  return out;
}

}  // namespace vatwright::blend::design
