// A sheet that another C library made is the same as long as it shows the same: over all recipes, each figure moved by
// its last bits is taken, and each changed in the last digit that is shown of it is found.
#include "host/cli/same_sheet.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "host/sheet/fact_json.hpp"
#include "host/sheet/writers.hpp"
#include "tests/host/house.hpp"
#include "units/parse.hpp"

namespace same_sheet_test {

using namespace vatwright;
using namespace vatwright::test;
using Json = nlohmann::json;

struct Computed {
  Worksheet sheet;
  Json json;
  explicit Computed(Worksheet made) : sheet(std::move(made)), json(Json::parse(write_json(sheet))) {}

  std::vector<std::string> found(const Json& other) const { return differences_of(other, json, sheet).words; }
};

// Calls `look` with the computed sheet of each recipe that runs as it stands.
template <class Look>
void for_all_recipes(const Look& look) {
  TestHouse house;
  std::size_t seen = 0;
  for (const auto& file : fs::recursive_directory_iterator(source_dir / "recipes")) {
    const auto text = file.path().extension() == ".yaml" ? contents(file) : std::string();
    if (text.find("\nsteps:") == std::string::npos || text.find("from book") != std::string::npos ||
        text.find("from: book") != std::string::npos || text.find("from table") != std::string::npos ||
        text.find("each:") != std::string::npos)
      continue;
    if (++seen % static_cast<std::size_t>(fewer) != 0) continue;
    SCOPED_TRACE(file.path());
    look(Computed(house.bench().run(read_recipe(Document::read(file.path().string(), text)))));
  }
  EXPECT_GT(seen, 30U);
}

// Calls `change` on each figure that is no count; returns how many there are.
template <class Change>
std::size_t each_figure(Json& json, const Change& change) {
  std::size_t figures = 0;
  if (json.is_structured())
    for (auto& inner : json) figures += each_figure(inner, change);
  else if (json.is_number_float())
    change(json), figures = 1;
  return figures;
}

TEST(SameSheet, LastBitsAreNoDifference) {
  std::mt19937 random(5);
  std::uniform_real_distribution<> exponent(-13, -10);
  for_all_recipes([&](const Computed& computed) {
    Json other = computed.json;
    EXPECT_GT(each_figure(other,
                          [&](Json& figure) {
                            const double sign = random() % 2 == 0 ? -1 : 1;
                            figure = figure.get<double>() * (1 + sign * std::pow(10.0, exponent(random)));
                          }),
              10U);
    const auto found = computed.found(other);
    EXPECT_TRUE(found.empty()) << found.front();
  });
}

// Changes figures, and counts them.
struct Changed {
  Json json;
  std::size_t figures = 0;

  void change(Json& figure, double by) {
    figure = figure.get<double>() + by;
    ++figures;
  }
  void last_decimal(Json& figure, int decimals) { change(figure, std::pow(10.0, -decimals)); }
  // What is weighed, or written, or known of a lot.
  void sixth_digits(Json& part) {
    each_figure(part, [&](Json& figure) {
      const double size = std::abs(figure.get<double>());
      if (size > 0) change(figure, std::pow(10.0, std::floor(std::log10(size)) - 5));
    });
  }
  void step(const StepSheet& sheet, Json& step) {
    const Outcome& o = sheet.outcome;
    for (const auto& result : o.results) {
      Json& one = step["results"][std::string(result.info->name)];
      last_decimal(one["value"], result.info->decimals + 2);  // as in CSV
      if (one.contains("uncertainty")) change(one["uncertainty"], 1e-3 * one["uncertainty"].get<double>());
    }
    for (std::size_t i = 0; i < o.checks.size(); ++i) {
      Json& one = step["checks"][i];
      if (o.checks[i].value) last_decimal(one["value"]["value"], o.checks[i].value->decimals);
      if (o.checks[i].limit) last_decimal(one["limit"]["value"], o.checks[i].limit->decimals);
    }
    for (std::size_t t = 0; t < o.tables.size(); ++t)
      for (auto& row : step["tables"][t]["rows"])
        for (std::size_t c = 0; c < row.size(); ++c)
          if (row[c].is_number()) last_decimal(row[c], o.tables[t].columns[c].decimals);
    sixth_digits(step["inputs"]);
    sixth_digits(step["additions"]);
  }
};

TEST(SameSheet, EveryDigitThatIsShownCounts) {
  for_all_recipes([](const Computed& computed) {
    Changed other{computed.json};
    for (std::size_t n = 0; n < computed.sheet.steps.size(); ++n)
      other.step(computed.sheet.steps[n], other.json["steps"][n]);
    other.sixth_digits(other.json["lots"]);
    other.sixth_digits(other.json["weigh out"]);
    EXPECT_EQ(computed.found(other.json).size(), other.figures);
  });
}

// Where rounding hides the difference of a check's two figures, a sheet shows more decimals of them.
TEST(SameSheet, WhatTellsAChecksFiguresApartCounts) {
  TestHouse house;
  Worksheet sheet = house.run(recipe_with("", "  - sulfite.addition: {target free SO2: 28 mg/L}\n", "rules: EU\n"));
  ASSERT_FALSE(sheet.steps[0].outcome.checks.empty());
  Check& check = sheet.steps[0].outcome.checks[0];
  check.holds = false;
  check.value = check.limit;
  check.value->number *= 1 + 1e-6;
  const Computed computed(sheet);
  Json other = computed.json;
  auto& value = other["steps"][0]["checks"][0]["value"]["value"];
  value = value.get<double>() * (1 - 5e-7);
  EXPECT_EQ(computed.found(other).size(), 1U);
}

TEST(SameSheet, ACountAndAWordAreExact) {
  TestHouse house;
  const Computed computed(house.run(recipe_with("", "  - sulfite.addition: {target free SO2: 28 mg/L}\n")));
  for (const auto& [place, value] : std::vector<std::pair<std::string, Json>>{
           {"/sheet", 1.0000000001}, {"/steps/0/lot", "T8"}, {"/steps/0/results", 3.0}, {"/steps", Json::array()}}) {
    Json other = computed.json;
    other[Json::json_pointer(place)] = value;
    EXPECT_FALSE(computed.found(other).empty()) << place;
  }
}

// What is told of a long text is cut between two characters, wherever they fall.
TEST(SameSheet, ALongTextIsCutBetweenCharacters) {
  Worksheet sheet;
  const Json computed{{"note", "short"}};
  for (std::size_t before = 0; before < 70; ++before) {
    const Json other{{"note", std::string(before, 'a') + "± µ ₂ ± µ ₂ ± µ ₂ ± µ ₂ ± µ ₂ ± µ ₂ ± µ ₂ ± µ ₂ ± µ ₂"}};
    const auto words = differences_of(other, computed, sheet).words;
    ASSERT_EQ(words.size(), 1U);
    EXPECT_NO_THROW(static_cast<void>(Json(words[0]).dump())) << before;  // throws at bytes that are no UTF-8
  }
}

}  // namespace same_sheet_test
