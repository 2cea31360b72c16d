// Every calculation gives the same answer on any thread. Run under the thread sanitizer too.
#include "tests/plugins/examples.hpp"

#include <fmt/format.h>

#include <array>
#include <iterator>
#include <thread>
#include <utility>

namespace vatwright::test {
namespace purity_test {

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

// All that an outcome says, to the last bit: one member of Outcome after the other.
class Told {
 public:
  explicit Told(const Outcome& outcome) {
    for (const auto& r : outcome.results) add("result {} {:a}\n", r.info->name, r.number);
    for (const auto& c : outcome.changes) {
      add("change {}\n", c.key->name);
      value(c.value);
    }
    for (const auto& w : outcome.work) add("work {}\n", w);
    for (const auto& a : outcome.additions) addition(a);
    for (const auto& c : outcome.checks) check(c);
    for (const auto& o : outcome.opinions) {
      add("opinion {} {} {}\n", o.name, o.matters, o.source);
      figure(o.here);
      figure(o.there);
    }
    for (const auto& r : outcome.reagents) add("reagent {}\n", r);
    for (const auto& n : outcome.notes) add("note {}\n", n);
    for (const Input* key : outcome.forgotten) add("forgotten {}\n", key->name);
    for (const auto& lot : outcome.new_lots) {
      add("new lot {}\n", lot.name);
      for (const auto& [name, of] : lot.analysis) {
        add("{}\n", name);
        value(of);
      }
    }
    for (const auto& d : outcome.drawn) add("drawn {} {:a}\n", d.lot, d.volume.value());
    for (const auto& t : outcome.tables) table(t);
    for (const auto& c : outcome.charts) chart(c);
    for (const auto& s : outcome.swatches) add("swatch {} {} {} {}\n", s.name, s.red, s.green, s.blue);
  }

  const std::string& text() const { return text_; }

 private:
  template <class... Parts>
  void add(fmt::format_string<Parts...> form, Parts&&... parts) {
    fmt::format_to(std::back_inserter(text_), form, std::forward<Parts>(parts)...);
  }
  void figure(const Figure& f) { add("figure {} {} {:a} {}\n", f.unit, f.decimals, f.number, describe(f.dimension)); }
  void value(const Value& v) {
    add("value {:a} {:a} {} {} {}\n", v.number, v.uncertainty, v.written, v.word, v.substance.id);
    for (const auto& [name, share] : v.shares) add("share {} {:a}\n", name, share);
    for (const auto& [name, amount] : v.amounts) add("amount {} {:a}\n", name, amount);
    for (const auto& [x, y] : v.series.points) add("point {:a} {:a}\n", x, y);
    if (v.series.path) add("path {:a}\n", *v.series.path);
    for (const double u : v.series.uncertainties) add("uncertainty {:a}\n", u);
  }
  void addition(const Addition& a) {
    add("addition {} {} {} {}\n", a.substance, a.strength, a.when, a.part ? a.part->value() : 0);
    if (a.mass) add("mass {:a}\n", a.mass->value());
    if (a.volume) add("volume {:a}\n", a.volume->value());
    figure(a.dose);
  }
  void check(const Check& c) {
    add("check {} {} {} {} {}\n", c.name, c.holds, c.relation, c.source, c.remedy);
    if (c.value) figure(*c.value);
    if (c.limit) figure(*c.limit);
  }
  void table(const Table& t) {
    add("table {}\n", t.name);
    for (const auto& column : t.columns) add("column {} {} {}\n", column.name, column.unit, column.decimals);
    for (const auto& row : t.rows)
      for (const auto& cell : row) {
        if (const auto* number = std::get_if<double>(&cell)) add("cell {:a}\n", *number);
        if (const auto* words = std::get_if<std::string>(&cell)) add("cell {}\n", *words);
        if (std::holds_alternative<std::monostate>(cell)) add("no cell\n");
      }
  }
  void chart(const Chart& c) {
    add("chart {} {}\n", c.name, c.band_name);
    for (const Axis* axis : {&c.x, &c.y}) add("axis {} {} {}\n", axis->name, axis->unit, axis->decimals);
    for (const auto& trace : c.traces) {
      add("trace {} {}\n", trace.name, trace.dots);
      for (const auto& [x, y] : trace.points) add("point {:a} {:a}\n", x, y);
    }
    if (c.band) add("band {:a} {:a}\n", c.band->first, c.band->second);
  }

  std::string text_;
};

std::string all_of(const Outcome& outcome) { return Told(outcome).text(); }

// An outcome that says a little of everything, and the same with one thing after the other changed.
Outcome of_everything() {
  Outcome out;
  out.change(lot::ph, Ph::from_value(3.4));
  out.change(lot::colour, "pink");
  out.change(lot::absorbance, Series{{{420e-9, 10}}, 0.01, {0.1}});
  out.change(lot::treated_with, Amounts{{"bentonite", 0.6}});
  out.task("draw it off");
  out.additions.push_back(
      {.substance = "bentonite", .mass = Mass::from_value(1), .dose = figure(Density::from_value(1), "g/hL", 1)});
  Check check;
  check.name = "check";
  check.value = figure(Volume::from_value(1), "L", 1);
  check.limit = figure(Volume::from_value(2), "L", 1);
  out.checks.push_back(check);
  out.opinions.emplace_back().name = "opinion";
  out.reagents.emplace_back("bentonite");
  out.note("note");
  out.forget(lot::density);
  out.new_lots.push_back({"new", {}});
  out.new_lots[0].set(lot::varieties, {{"Sorrel", 1.0}});
  out.drawn.push_back({"A", Volume::from_value(1)});
  out.tables.push_back({"table", {{"column", "d"}}, {{1.0, std::string("word"), std::monostate()}}});
  out.charts.push_back({"chart", {"x", "h"}, {"y", "AU"}, {{"trace", false, {{1, 2}}}}, std::pair{1.0, 2.0}, "band"});
  out.swatches.push_back({"swatch", 1, 2, 3});
  return out;
}

TEST(Purity, NothingThatAnOutcomeSaysIsLeftOut) {
  using Change = void (*)(Outcome&);
  constexpr Change each[] = {
      [](Outcome& o) { o.changes[0].value.number = 3.5; },
      [](Outcome& o) { o.changes[1].value.word = "white"; },
      [](Outcome& o) { o.changes[2].value.series.points[0].second = 11; },
      [](Outcome& o) { o.changes[2].value.series.path = 0.02; },
      [](Outcome& o) { o.changes[2].value.series.uncertainties[0] = 0.2; },
      [](Outcome& o) { o.changes[3].value.amounts[0].second = 0.7; },
      [](Outcome& o) { o.work[0] = "leave it"; },
      [](Outcome& o) { o.additions[0].mass = Mass::from_value(2); },
      [](Outcome& o) { o.additions[0].strength = "60 g/L"; },
      [](Outcome& o) { o.additions[0].when = "now"; },
      [](Outcome& o) { o.additions[0].part = Volume::from_value(2); },
      [](Outcome& o) { o.additions[0].dose.number = 2; },
      [](Outcome& o) { o.checks[0].holds = true; },
      [](Outcome& o) { o.checks[0].value->number = 3; },
      [](Outcome& o) { o.checks[0].limit->number = 3; },
      [](Outcome& o) { o.checks[0].relation = "at most"; },
      [](Outcome& o) { o.checks[0].remedy = "less"; },
      [](Outcome& o) { o.opinions[0].there.number = 1; },
      [](Outcome& o) { o.opinions[0].matters = true; },
      [](Outcome& o) { o.reagents.clear(); },
      [](Outcome& o) { o.notes.clear(); },
      [](Outcome& o) { o.forgotten.clear(); },
      [](Outcome& o) { o.new_lots[0].name = "newer"; },
      [](Outcome& o) {
        o.new_lots[0].set(lot::varieties, {{"Teasel", 1.0}});
      },
      [](Outcome& o) { o.drawn[0].volume = Volume::from_value(2); },
      [](Outcome& o) { o.tables[0].rows[0][0] = 2.0; },
      [](Outcome& o) { o.tables[0].columns[0].unit = "h"; },
      [](Outcome& o) { o.charts[0].traces[0].points[0].second = 3; },
      [](Outcome& o) { o.charts[0].band->second = 3; },
      [](Outcome& o) { o.swatches[0].blue = 4; },
  };
  const std::string before = all_of(of_everything());
  EXPECT_EQ(all_of(of_everything()), before);
  for (std::size_t i = 0; i < std::size(each); ++i) {
    Outcome outcome = of_everything();
    each[i](outcome);
    EXPECT_NE(all_of(outcome), before) << "change " << i;
  }
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

}  // namespace purity_test
}  // namespace vatwright::test
