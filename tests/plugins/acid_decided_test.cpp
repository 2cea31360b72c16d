// What acid.addition and acid.reduction decided on is held while readings are drawn.
#include "tests/plugins/run.hpp"

#include <map>
#include <optional>

namespace vatwright::test {
namespace {

// The inputs of a step that was run, with its decisions held; readings may be moved.
class Held final : public Inputs {
 public:
  Held(const StepSheet& step, TestHouse& house) {
    for (const auto& used : step.inputs) values_[std::string(used.input->name)] = used.value;
    for (const auto& result : step.outcome.results)
      if (result.info->decided) decided_[result.info] = result.number;
    for (const Manifest* plugin : house.registry.all())
      for (const auto& one : plugin->calculations)
        if (std::string(plugin->name) + "." + std::string(one.name) == step.calculation) run_ = one.run;
  }
  Outcome run() const { return run_(*this); }
  void move(const std::string& key, double by) { values_.at(key).number += by; }

  const Value* find(const Input& input) const override {
    const auto at = values_.find(std::string(input.name));
    return at == values_.end() ? nullptr : &at->second;
  }
  std::optional<LimitRow> limit(const LimitInfo&, const Analysis*) const override { return std::nullopt; }
  bool figures_only() const override { return true; }

 protected:
  std::optional<double> decided_number(const ResultInfo& info) const override {
    const auto at = decided_.find(&info);
    return at == decided_.end() ? std::nullopt : std::optional(at->second);
  }

 private:
  std::map<std::string, Value> values_;
  std::map<const ResultInfo*, double> decided_;
  Outcome (*run_)(const Inputs&) = nullptr;
};

const std::string lot =
    "volume: 1000 L, pH: 3.05, titratable acidity: 12 g/L as tartaric acid, stage: must, tartaric acid: 6.0 g/L, "
    "malic acid: 6.5 g/L, potassium: 1300 mg/L, calcium: 60 mg/L";
const std::string steps[] = {
    "acid.addition: {target pH: 2.95}", "acid.addition: {target titratable acidity: 13 g/L as tartaric acid}",
    "acid.reduction: {target pH: 3.2}", "acid.reduction: {target pH: 3.2, substance: calcium carbonate}",
    "acid.reduction: {target titratable acidity: 9 g/L as tartaric acid, substance: double-salt treatment}"};

TEST(AcidDecided, SameInputsGiveTheSameFigures) {
  TestHouse house;
  for (const auto& text : steps) {
    const auto sheet = house.run(recipe(lot, {text}));
    const auto again = Held(sheet.steps.at(0), house).run();
    const auto& first = sheet.steps[0].outcome;
    ASSERT_EQ(again.results.size(), first.results.size()) << text;
    for (std::size_t i = 0; i < first.results.size(); ++i)
      EXPECT_NEAR(again.results[i].number, first.results[i].number, 1e-9 * first.results[i].number)
          << text << ": " << first.results[i].info->name;
    ASSERT_EQ(again.changes.size(), first.changes.size()) << text;
    for (std::size_t i = 0; i < first.changes.size(); ++i)
      EXPECT_NEAR(again.changes[i].value.number, first.changes[i].value.number, 1e-9) << text;
    EXPECT_TRUE(again.notes.empty() && again.tables.empty() && again.opinions.empty()) << text;
  }
}

// The dose is in the tank: another pH of the wine moves what follows, not the dose.
TEST(AcidDecided, TheDoseStaysWhenTheReadingMoves) {
  TestHouse house;
  for (const auto& text : steps) {
    const auto sheet = house.run(recipe(lot, {text}));
    Held held(sheet.steps.at(0), house);
    held.move("pH", 0.05);
    const auto moved = held.run();
    const auto& first = sheet.steps[0].outcome.results;
    EXPECT_EQ(moved.results.at(0).number, first.at(0).number) << text;
    EXPECT_GT(moved.results.at(1).number, first.at(1).number + 0.03) << text;
    EXPECT_LT(moved.results.at(1).number, first.at(1).number + 0.08) << text;
  }
}

}  // namespace
}  // namespace vatwright::test
