// Fifty random designs: the search of blend.design against scipy's milp (HiGHS), which is given the
// lots and makes its own program of them; and the program as it is written against glpsol, the stand-alone
// solver of the GLPK package.
#include "plugins/blend/design/search.hpp"
#include "tests/folder.hpp"
#include "tests/published/other_program.hpp"

#include <fmt/format.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <deque>
#include <fstream>
#include <random>
#include <sstream>

namespace vatwright::blend::design {
namespace design_solvers_test {

using nlohmann::json;

// A problem, the lots that it points into, and the same for the other side.
struct Design {
  std::vector<Row> rows;
  Problem problem;
  json told;
};

class Maker {
 public:
  explicit Maker(unsigned seed) : draw_(seed) {}

  Design make() {
    Design out;
    const auto count = static_cast<std::size_t>(between(3, 25));
    for (std::size_t i = 0; i < count; ++i) out.rows.push_back(lot(i));
    Problem& p = out.problem;
    p.volume = between(40, 150) * hectolitre;
    p.for_cost = between(0, 1) < 0.6;
    p.smallest_share = between(0, 0.1);
    p.most_lots = static_cast<std::size_t>(between(2, 8));
    p.rules.push_back({.name = "two varieties", .of = "variety", .least_members = 2, .each_at_most = between(0.5, 1)});
    for (const auto& row : out.rows)
      p.lots.push_back({.row = &row, .most = row[lot::volume].value() / p.volume.value(), .price = between(50, 200)});
    p.bounds = {{&lot::sugar, {}, between(1, 2.5)},
                {&lot::volatile_acidity, {}, between(4, 6)},
                {&lot::potassium, between(0.6, 0.8), between(0.8, 1.1)},
                {&lot::total_so2, {}, between(0.06, 0.09)}};
    if (!p.for_cost)
      for (const Input* key : {static_cast<const Input*>(&lot::sugar), static_cast<const Input*>(&lot::malic_acid)}) {
        const double wish = between(0.5, 2);
        p.profile.push_back({key, wish, wish});
      }
    tell(out);
    return out;
  }

 private:
  // Not std::uniform_real_distribution: its draws are not the same in every library.
  double between(double low, double high) {
    return low + (high - low) * static_cast<double>(draw_() >> 11) / 9007199254740992.0;
  }

  // Without ethanol nothing contracts, and all that is bound here adds up by volume.
  Row lot(std::size_t i) {
    NewLot made;
    made.set(lot::volume, between(10, 90) * hectolitre);
    made.set(lot::sugar, between(0.5, 4) * gram_per_litre);
    made.set(lot::volatile_acidity, between(2, 8) * milliequivalent_per_litre);
    made.set(lot::malic_acid, between(0, 3) * gram_per_litre);
    made.set(lot::potassium, between(500, 1300) * milligram_per_litre);
    made.set(lot::total_so2, between(40, 120) * milligram_per_litre);
    const std::array<std::string, 4> names{"Sorrel", "Blackthorn", "Teasel", "Yarrow"};
    const double share = between(0, 1);
    const auto first = static_cast<std::size_t>(between(0, 4));
    made.set(lot::varieties, Shares{{names[first], share}, {names[(first + 1) % names.size()], 1 - share}});
    Row row;
    row.name = fmt::format("L{}", i + 1);
    row.lot = std::make_shared<const Analysis>(std::move(made.analysis));
    return row;
  }

  static void tell(Design& d) {
    const Problem& p = d.problem;
    d.told = {{"volume", (p.volume / hectolitre).value()},
              {"smallest share", p.smallest_share},
              {"most lots", *p.most_lots},
              {"each at most", *p.rules[0].each_at_most},
              {"at least members", *p.rules[0].least_members},
              {"profile", json::object()}};
    for (const auto& candidate : p.lots) {
      json figures;
      for (const Input* key : {static_cast<const Input*>(&lot::sugar), static_cast<const Input*>(&lot::malic_acid),
                               static_cast<const Input*>(&lot::volatile_acidity),
                               static_cast<const Input*>(&lot::potassium), static_cast<const Input*>(&lot::total_so2)})
        figures[std::string(key->name)] = candidate.row->find(*key)->number;
      json varieties;
      for (const auto& [name, share] : (*candidate.row)[lot::varieties]) varieties[name] = share;
      d.told["lots"].push_back({{"volume", (*candidate.row)[lot::volume].value() / hectolitre.value()},
                                {"price", candidate.price},
                                {"figures", figures},
                                {"varieties", varieties}});
    }
    for (const auto& bound : p.bounds)
      d.told["bounds"][std::string(bound.on->name)] = {bound.low.value_or(-1e9), bound.high.value_or(1e9)};
    for (const auto& wish : p.profile) d.told["profile"][std::string(wish.on->name)] = {*wish.low, step(*wish.on)};
  }

  std::mt19937_64 draw_;
};

// A problem points into its lots: none may be copied.
std::deque<Design> designs() {
  Maker maker(26);
  std::deque<Design> out;
  for (int i = 0; i < 50; ++i) out.push_back(maker.make());
  return out;
}

double objective(const Found& found) { return found.solution.objective * found.formulation.scale; }

// Outside check of blend.design: 50 values within 1e-6 of the objective, another program.
// Source: scipy.optimize.milp (HiGHS).
TEST(DesignSolvers, SearchAgreesWithScipy) {
  const auto all = designs();
  json told;
  for (const auto& design : all) told.push_back(design.told);
  const test::Folder folder;
  const std::string file = folder.write("designs.json", told.dump()).string();
  std::istringstream theirs(
      published::output_of(published::shell_word(VATWRIGHT_SOURCE_DIR "/tests/published/design_milp.py") + " " +
                           published::shell_word(VATWRIGHT_BUILD_DIR "/unpacked/usr/lib/python3/dist-packages") + " " +
                           published::shell_word(file)));
  int found = 0, none = 0;
  for (std::size_t i = 0; i < all.size(); ++i) {
    SCOPED_TRACE(fmt::format("design {}", i));
    std::string line;
    ASSERT_TRUE(theirs >> line);
    const Lots lots(all[i].problem);
    const auto answer = search(all[i].problem, lots);
    if (line == "none") {
      EXPECT_TRUE(std::holds_alternative<NoBlend>(answer));
      ++none;
      continue;
    }
    ASSERT_TRUE(std::holds_alternative<Found>(answer));
    const double other = std::stod(line);
    // HiGHS lets a row be passed by 1e-7; in steps of a profile that is some 1e-6.
    EXPECT_NEAR(objective(std::get<Found>(answer)), other, 1e-6 * std::max(1.0, std::abs(other)));
    ++found;
  }
  EXPECT_GE(found, 20);  // both kinds are met with
  EXPECT_GE(none, 3);
}

// "none", or the objective, of a program in the LP format.
std::string by_glpsol(const std::string& text) {
  const test::Folder folder;
  const std::string model = folder.write("design.lp", text).string();
  const std::string answer = folder.write("design.sol", "").string();
  const auto said = published::output_of("glpsol --lp " + published::shell_word(model) + " --mipgap 1e-9 -w " +
                                         published::shell_word(answer));
  if (said.find("NO PRIMAL FEASIBLE") != std::string::npos || said.find("NO FEASIBLE") != std::string::npos ||
      said.find("NO INTEGER FEASIBLE") != std::string::npos)
    return "none";
  std::ifstream in(answer);
  std::string word, kind, rows, columns, status, objective;
  for (std::string line; std::getline(in, line);)
    if (line.rfind("s ", 0) == 0) {
      std::istringstream parts(line);
      parts >> word >> kind >> rows >> columns >> status;
      if (kind == "bas") parts >> word;
      parts >> objective;
    }
  return objective.empty() ? "unread: " + said : objective;
}

// Outside check of blend.design: 50 values within 1e-6 of the objective, another program.
// Source: glpsol of GLPK.
TEST(DesignSolvers, WrittenProgramsAgreeWithGlpsol) {
  int found = 0, none = 0;
  for (const auto& design : designs()) {
    const Lots lots(design.problem);
    const Estimate estimate(lots, Mixture(lots.size(), 1.0 / static_cast<double>(lots.size())));
    const auto program =
        formulate(design.problem, estimate, std::vector<double>(sides(design.problem).size(), 0.0)).model;
    const auto ours = program::solve(program);
    const auto theirs = by_glpsol(program::written(program));
    if (theirs == "none") {
      EXPECT_FALSE(ours);
      ++none;
      continue;
    }
    ASSERT_TRUE(ours) << theirs;
    const double other = std::stod(theirs);
    EXPECT_NEAR(ours->objective, other, 1e-6 * std::max(1.0, std::abs(other)));
    ++found;
  }
  EXPECT_GE(found, 20);
  EXPECT_GE(none, 3);
}

}  // namespace design_solvers_test
}  // namespace vatwright::blend::design
