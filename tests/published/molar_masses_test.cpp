// Molar masses against the Python package periodictable (IUPAC weights, unabridged).
#include "tests/published/other_program.hpp"
#include "units/basis.hpp"

#include <gtest/gtest.h>
#include <yaml-cpp/yaml.h>

#include <filesystem>
#include <set>
#include <sstream>
#include <string>

namespace vatwright {
namespace molar_masses_test {

// Ours are the abridged weights: sulfur 32.06 stands for 32.059 to 32.076, chlorine 35.45 for
// 35.446 to 35.457, so that two good tables differ by up to 1 in 10⁴ in a compound.
constexpr double tolerance = 2e-4;

// Every `formula:` at any depth.
void collect(const YAML::Node& node, std::set<std::string>& formulas) {
  if (node.IsMap()) {
    for (const auto& entry : node) {
      if (entry.first.Scalar() == "formula" && entry.second.IsScalar() && !entry.second.Scalar().empty())
        formulas.insert(entry.second.Scalar());
      collect(entry.second, formulas);
    }
  } else if (node.IsSequence()) {
    for (const auto& item : node) collect(item, formulas);
  }
}

void compare(const std::set<std::string>& formulas, std::size_t least) {
  ASSERT_GE(formulas.size(), least);
  std::string command = published::shell_word(VATWRIGHT_SOURCE_DIR "/tests/published/molar_masses.py");
  for (const auto& formula : formulas) command.append(" ").append(published::shell_word(formula));
  std::istringstream masses(published::output_of(command));
  for (const auto& formula : formulas) {
    double theirs = 0;
    ASSERT_TRUE(masses >> theirs) << formula;
    const double ours = 1000 * molar_mass(formula).value();
    EXPECT_NEAR(ours / theirs, 1, tolerance) << formula << ": " << ours << " here, " << theirs << " there";
  }
}

// Outside check of units: 18 values within 0.02 %, another program.
// Source: periodictable (Python).
TEST(MolarMasses, OfTheElements) {
  std::set<std::string> symbols;
  for (const auto& element : elements) symbols.insert(std::string(element.symbol));
  compare(symbols, 18);
}

// Outside check of units: 11 values within 0.02 %, another program.
// Source: periodictable (Python).
TEST(MolarMasses, OfTheBases) {
  std::set<std::string> formulas;
  for (const auto& basis : bases()) formulas.insert(std::string(basis.formula));
  compare(formulas, 11);
}

// Outside check of substances: over 30 values within 0.02 %, another program.
// Source: periodictable (Python).
TEST(MolarMasses, OfTheSubstances) {
  const std::string file = VATWRIGHT_SOURCE_DIR "/host/substances/substances.yaml";
  ASSERT_TRUE(std::filesystem::exists(file)) << file;
  std::set<std::string> formulas;
  collect(YAML::LoadFile(file), formulas);
  compare(formulas, 31);
}

// Two sulfur dioxide in one potassium metabisulfite: 57.6 % by mass, from any table of weights.
// Outside check of sulfite.addition: 1 value within 0.05 % mass, derived.
// Source: atomic weights.
TEST(MolarMasses, SulfurDioxideInPotassiumMetabisulfite) {
  const double share = 2 * molar_mass("SO2").value() / molar_mass("K2S2O5").value();
  EXPECT_NEAR(100 * share, 57.6, 0.05);
}

// Sulfur dioxide of the sodium salt, 67.4 % (from memory).
// Outside check of sulfite.addition: 1 value within 0.05 % mass, from memory.
// Source: share of sulfur dioxide in the sodium salt.
TEST(MolarMasses, SulfurDioxideInSodiumMetabisulfite) {
  const double share = 2 * molar_mass("SO2").value() / molar_mass("Na2S2O5").value();
  EXPECT_NEAR(100 * share, 67.4, 0.05);
}

}  // namespace molar_masses_test
}  // namespace vatwright
