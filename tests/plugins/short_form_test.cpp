// While readings are drawn a calculation may leave out what is not looked at then. What it gives must be what it gives
// in full, on every worked example and on its readings moved at random; and no limit goes without its chance.
#include "host/bench/course.hpp"
#include "tests/plugins/examples.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <random>
#include <string>

namespace vatwright::test {
namespace short_form_test {

std::string words(const Worksheet& sheet, const Slot& slot) {
  const Outcome& outcome = sheet.steps[slot.step].outcome;
  switch (slot.of) {
    case Slot::Of::result:
      return std::string(outcome.results[slot.index].info->name);
    case Slot::Of::addition:
      return "addition of " + outcome.additions[slot.index].substance;
    case Slot::Of::check:
      return outcome.checks[slot.index].name;
  }
  return {};
}

bool has_a_chance(const Check& check) {
  return check.value && check.limit && check.relation != "equals" && !check.relation.empty();
}

void expect_near(double a, double b, const std::string& what) { EXPECT_NEAR(a, b, 1e-12 + 1e-9 * std::abs(b)) << what; }

void compare(const Outcome& in_short, const Outcome& in_full) {
  ASSERT_EQ(in_short.results.size(), in_full.results.size());
  for (std::size_t i = 0; i < in_full.results.size(); ++i)
    expect_near(in_short.results[i].number, in_full.results[i].number, std::string(in_full.results[i].info->name));
  ASSERT_EQ(in_short.changes.size(), in_full.changes.size());
  for (std::size_t i = 0; i < in_full.changes.size(); ++i)
    expect_near(in_short.changes[i].value.number, in_full.changes[i].value.number,
                std::string(in_full.changes[i].key->name));
  EXPECT_EQ(in_short.forgotten.size(), in_full.forgotten.size());
  EXPECT_EQ(in_short.additions.size(), in_full.additions.size());
  EXPECT_EQ(in_short.poured.has_value(), in_full.poured.has_value());
  for (const auto& check : in_full.checks) {
    if (!has_a_chance(check)) continue;
    const auto at = std::find_if(in_short.checks.begin(), in_short.checks.end(),
                                 [&](const Check& other) { return other.name == check.name && other.value; });
    ASSERT_NE(at, in_short.checks.end()) << check.name;
    expect_near(at->value->number, check.value->number, check.name);
  }
}

// The steps of one recipe, each in short and in full, on the lots as the steps before it left them.
std::size_t walk(const Prepared& ready, const Worksheet& sheet, const Variant& variant) {
  auto lots = variant.lots();
  for (std::size_t i = 0; i < variant.steps().size(); ++i) {
    const BoundStep& step = variant.steps()[i];
    const Outcome& on_sheet = sheet.steps[i].outcome;
    const Known brief{&on_sheet, true}, whole{&on_sheet, false};
    Outcome in_full;
    try {
      in_full = call(step, GivenInputs(step, lots, *ready.rules, &whole), ready.recipe);
    } catch (const BadInput&) {
      return 0;  // readings that cannot be together
    }
    compare(call(step, GivenInputs(step, lots, *ready.rules, &brief), ready.recipe), in_full);
    let_follow(step, lots, in_full);
    enter(in_full, step, i, ready.recipe, lots, Run::again);
  }
  return 1;
}

// Nothing was done, so that there is nothing that its limits could happen to.
bool refused(const StepSheet& step) { return step.doses && step.outcome.additions.empty() && !step.outcome.holds(); }

// Each worked example, and each recipe of the demo, with typical uncertainties.
template <class Look>
void each_recipe(Look look) {
  const auto make = [&](Recipe recipe, const std::string& name) {
    SCOPED_TRACE(name);
    recipe.typical_uncertainty = true;
    const Prepared ready = house().bench().prepare(recipe);
    Worksheet sheet;
    house().bench().run_steps(ready, {}, sheet);
    look(ready, sheet);
  };
  each_calculation(
      [&](const std::string& id, const Calculation& calculation) { make(recipe_of_example(id, calculation), id); });
  for (const auto& file : std::filesystem::directory_iterator(source_dir / "recipes"))
    if (file.path().extension() == ".yaml")
      make(read_recipe(Document::open(file.path().string())), file.path().filename());
}

TEST(ShortForm, GivesWhatTheFullOneGives) {
  std::mt19937 random(20);
  std::uniform_real_distribution<double> spread(-2, 2);
  std::size_t walked = 0;
  each_recipe([&](const Prepared& ready, const Worksheet& sheet) {
    Variant variant(ready);
    walked += walk(ready, sheet, variant);
    for (int time = 0; time < 8; ++time) {
      for (std::size_t i = 0; i < variant.readings().size(); ++i)
        variant.set(i, variant.readings()[i].value + variant.readings()[i].standard * spread(random));
      walked += walk(ready, sheet, variant);
    }
  });
  EXPECT_GT(walked, 300U);
}

// What the bench itself runs: a limit of a calculation that leaves it out in short has its chance all the same.
TEST(ShortForm, IsLeftWhereALimitIsLeftOut) {
  std::size_t checks = 0;
  each_recipe([&](const Prepared& ready, const Worksheet& sheet) {
    Slots slots(ready, sheet);
    const Reach reach(ready, sheet);
    const Variant variant(ready);
    const FirstRun first(ready, slots, reach, variant);
    ASSERT_TRUE(first.known());
    for (std::size_t s = 0; s < slots.size(); ++s) {
      const StepSheet& step = sheet.steps[slots[s].step];
      const double on_sheet = slots.on_sheet(s), figure = first.figures()[s];
      if (slots[s].of != Slot::Of::check) {
        expect_near(figure, on_sheet, words(sheet, slots[s]));
      } else if (!refused(step)) {
        ++checks;
        EXPECT_NEAR(figure, on_sheet, 0.01 * std::abs(on_sheet)) << words(sheet, slots[s]);  // but for its rounding
      }
    }
  });
  EXPECT_GT(checks, 50U);
}

}  // namespace short_form_test
}  // namespace vatwright::test
