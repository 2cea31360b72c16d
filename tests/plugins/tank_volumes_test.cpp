// cellar.tank on vessels drawn at random, against another way to cut them up and other arithmetic (mpmath).
#include "tests/folder.hpp"
#include "tests/plugins/run.hpp"
#include "tests/published/other_program.hpp"

#include <fmt/format.h>

#include <cmath>
#include <fstream>
#include <random>
#include <sstream>
#include <vector>

namespace vatwright::test {
namespace tank_volumes_test {

struct Case {
  std::string line;    // for the other program
  std::string inputs;  // for the step
};

class Drawn {
 public:
  std::vector<Case> all() {
    std::vector<Case> cases;
    for (const char* bottom : {"flat", "cone", "ellipsoid", "shallow", "deep"})
      for (int i = 0; i < 6; ++i) cases.push_back(upright(bottom));
    for (int i = 0; i < 8; ++i) cases.push_back(lying());
    for (int i = 0; i < 6; ++i) cases.push_back(box());
    for (int i = 0; i < 10; ++i) cases.push_back(barrel());
    return cases;
  }

 private:
  // Millimetres, so that both read the same figure.
  double between(double low, double high) {
    return std::round(1000 * std::uniform_real_distribution(low, high)(random_)) / 1000;
  }
  static std::string centimetres(double metres) { return fmt::format("dip: {:.1f} cm", 100 * metres); }

  Case upright(const std::string& bottom) {
    const double d = between(0.8, 4), wall = between(1, 6), deep = between(0.1, 0.8), dip = between(0.02, wall);
    const bool sized = bottom == "cone" || bottom == "ellipsoid";
    const bool dished = bottom == "shallow" || bottom == "deep";
    return {
        fmt::format("upright {} {} {} {} {}", d, wall, bottom, sized ? deep : 0, dip),
        fmt::format("shape: upright cylinder, diameter: {} m, wall height: {} m, bottom: {}{}{}, {}", d, wall, bottom,
                    dished ? " dish" : "", sized ? fmt::format(", bottom depth: {} m", deep) : "", centimetres(dip))};
  }
  Case lying() {
    const double w = between(0.8, 3), h = between(0.8, 3), l = between(1, 8), end = between(0.01, 0.7),
                 dip = between(0.02, h);
    return {fmt::format("lying {} {} {} {} {}", w, h, l, end, dip),
            fmt::format("shape: lying oval, width: {} m, height: {} m, length: {} m, end depth: {} m, {}", w, h, l, end,
                        centimetres(dip))};
  }
  Case box() {
    const double l = between(1, 5), w = between(1, 4), h = between(1, 3), slope = between(0.01, 0.5),
                 dip = between(0.02, h);
    return {fmt::format("box {} {} {} {} {}", l, w, h, slope, dip),
            fmt::format("shape: rectangular, length: {} m, width: {} m, height: {} m, floor slope: {} m, {}", l, w, h,
                        slope, centimetres(dip))};
  }
  Case barrel() {
    const double bulge = between(0.5, 1.5), head = std::round(1000 * bulge * between(0.7, 0.95)) / 1000,
                 l = between(0.6, 2), dip = between(0.02, bulge - 0.001);
    return {fmt::format("barrel {} {} {} {}", bulge, head, l, dip),
            fmt::format("shape: barrel, bulge diameter: {} m, head diameter: {} m, length: {} m, {}", bulge, head, l,
                        centimetres(dip))};
  }

  std::mt19937 random_{20};
};

// Outside check of cellar.tank: 54 values within 1e-8 of themselves, derived.
// Source: tank_volumes.py, adaptive quadrature of mpmath.
TEST(TankVolumes, ByQuadratureInThirtyDigits) {
  const auto cases = Drawn().all();
  const Folder folder;
  const auto file = folder.path() / "vessels";
  {
    std::ofstream out(file);
    for (const auto& one : cases) out << one.line << '\n';
  }
  std::istringstream litres(
      published::output_of(published::shell_word(VATWRIGHT_SOURCE_DIR "/tests/published/tank_volumes.py") + " " +
                           published::shell_word(file.string())));
  for (const auto& one : cases) {
    double wanted = 0;
    ASSERT_TRUE(litres >> wanted) << one.line;
    const auto step = run_step("volume: 1 L", "cellar.tank: {" + one.inputs + "}");
    EXPECT_NEAR(result(step, "volume"), wanted, 1e-8 * wanted) << one.line;
  }
}

}  // namespace tank_volumes_test
}  // namespace vatwright::test
