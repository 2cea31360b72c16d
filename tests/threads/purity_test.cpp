// Every calculation gives the same answer on any thread. Run under the thread sanitizer too.
#include "tests/plugins/examples.hpp"

#include <fmt/format.h>

#include <array>
#include <thread>

namespace vatwright::test {
namespace {

// The inputs of a step that has run, without the host.
class SameInputs final : public Inputs {
 public:
  explicit SameInputs(const StepSheet& step) : used_(step.inputs) {}
  const Value* find(const Input& input) const override {
    for (const auto& used : used_)
      if (used.input == &input) return &used.value;
    return nullptr;
  }
  std::optional<LimitRow> limit(const LimitInfo&, const Analysis*) const override {
    return LimitRow{0.2, Sense::at_most, "test", "", "a figure of this test"};
  }

 private:
  const std::vector<UsedInput>& used_;
};

// All that an outcome says, to the last bit.
std::string all_of(const Outcome& outcome) {
  std::string out;
  for (const auto& r : outcome.results) out += fmt::format("{} {:a}\n", r.info->name, r.number);
  for (const auto& c : outcome.changes) out += fmt::format("{} {:a}\n", c.key->name, c.value.number);
  for (const auto& a : outcome.additions)
    out += fmt::format("{} {:a} {:a}\n", a.substance, a.mass.value_or(Mass{}).value(),
                       a.volume.value_or(Volume{}).value());
  for (const auto& c : outcome.checks) out += fmt::format("{} {} {}\n", c.name, c.holds, c.remedy);
  for (const auto& o : outcome.opinions) out += fmt::format("{} {:a} {:a}\n", o.name, o.here.number, o.there.number);
  for (const auto& n : outcome.notes) out += n + "\n";
  for (const auto& r : outcome.reagents) out += r + "\n";
  return out;
}

TEST(Purity, EightThreadsGiveOneAnswer) {
  each_calculation([](const std::string& id, const Calculation& calculation) {
    const auto sheet = run_example(id, calculation);
    const SameInputs inputs(sheet.steps.back());
    const std::string once = all_of(calculation.run(inputs));
    EXPECT_FALSE(once.empty());
    std::array<int, 8> different{};
    std::vector<std::jthread> threads;
    for (auto& count : different)
      threads.emplace_back([&inputs, &calculation, &once, &count] {
        for (int turn = 0; turn < 200; ++turn) count += all_of(calculation.run(inputs)) == once ? 0 : 1;
      });
    threads.clear();
    for (const int count : different) EXPECT_EQ(count, 0);
  });
}

}  // namespace
}  // namespace vatwright::test
