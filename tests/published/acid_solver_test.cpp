// The acid-base engine against a second solver, in another language and by another method, on random
// compositions. Both read the constants of plugins/chemistry/acids.hpp; everything else is written
// twice.
#include "plugins/chemistry/equilibrium.hpp"
#include "tests/folder.hpp"
#include "tests/published/other_program.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <iomanip>
#include <random>
#include <sstream>
#include <string>
#include <vector>

namespace vatwright::chemistry {
namespace acid_solver_test {

std::string one_word(std::string_view name) { return std::string(name.substr(0, name.find(' '))); }

// Musts and wines, and odd ones beside them. Amounts in mmol/L.
Composition random_composition(std::mt19937_64& draw) {
  const auto up_to = [&](double most) {
    // Not std::uniform_real_distribution: its draws are not the same in every library.
    return most * static_cast<double>(draw() >> 11) / 9007199254740992.0 * millimole_per_litre;
  };
  Composition c;
  for (const auto& acid : acids)
    if (draw() % 3 != 0) c[acid.acid] = up_to(acid.acid == Acid::tartaric ? 40 : 15);
  c[Ion::potassium] = up_to(45);
  c[Ion::sodium] = up_to(3);
  c[Ion::ammonium] = up_to(5);
  c[Ion::calcium] = up_to(3);
  c[Ion::magnesium] = up_to(5);
  c[Ion::chloride] = up_to(5);
  c.rest = equivalents(up_to(20) - up_to(20));
  return c;
}

void write_sample(std::ostream& out, const Composition& c) {
  out << "sample " << c.rest.value() / 1000;
  for (const auto& acid : acids) out << ' ' << one_word(acid.name) << '=' << c[acid.acid].value() / 1000;
  for (const auto& ion : ions) out << ' ' << ion.name << '=' << c[ion.ion].value() / 1000;
  out << '\n';
}

void compare(const Medium& medium, Ph endpoint, unsigned seed) {
  constexpr int samples = 100;
  std::ostringstream text;
  text << std::setprecision(17) << "medium " << medium.davies_a() << ' ' << medium.water_pk() << "\nendpoint "
       << endpoint.value() << '\n';
  for (const auto& acid : acids) {
    text << "acid " << one_word(acid.name);
    for (std::size_t step = 0; step < acid.protons; ++step) text << ' ' << medium.pk(acid.acid, step).value();
    text << '\n';
  }
  for (const auto& ion : ions) text << "ion " << ion.name << ' ' << ion.charge << '\n';
  std::mt19937_64 draw(seed);
  std::vector<Composition> compositions;
  for (int i = 0; i < samples; ++i) write_sample(text, compositions.emplace_back(random_composition(draw)));

  const test::Folder folder;
  const std::string file = folder.write("samples.txt", text.str()).string();
  std::istringstream theirs(
      published::output_of(published::shell_word(VATWRIGHT_SOURCE_DIR "/tests/published/acid_solver.py") + " " +
                           published::shell_word(file)));
  double worst_ph = 0, worst_base = 0;
  for (const auto& c : compositions) {
    double ph = 0, base = 0;
    ASSERT_TRUE(theirs >> ph >> base);
    worst_ph = std::max(worst_ph, std::abs(equilibrium(c, medium).ph.value() - ph));
    worst_base = std::max(worst_base, std::abs(base_to(c, endpoint, medium).value() - 1000 * base));
  }
  EXPECT_LT(worst_ph, 1e-6);
  EXPECT_LT(worst_base, 1e-6);  // meq/L
  testing::Test::RecordProperty("worst_ph", std::to_string(worst_ph * 1e9) + "e-9");
}

// Outside check of acid.addition, acid.reduction, acid.malolactic, acid.curve: 200 values within 1e-6 pH,
// 1e-6 meq/L, derived.
// Source: acid_solver.py, bisection in Python.
TEST(SecondSolver, InWater) { compare(Medium(), oiv_endpoint, 1); }
// Outside check of acid.addition, acid.reduction, acid.malolactic, acid.curve: 200 values within 1e-6 pH,
// 1e-6 meq/L, derived.
// Source: acid_solver.py, bisection in Python.
TEST(SecondSolver, InWineAtTwelvePerCent) { compare(Medium(12.0 * percent_vol, celsius(20)), 8.2 * ph_unit, 2); }

}  // namespace acid_solver_test
}  // namespace vatwright::chemistry
