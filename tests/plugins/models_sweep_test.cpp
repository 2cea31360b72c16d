// Every calculation of every plugin of this tree says how far its models are off, or stands here with the reason why it
// has none.
#include "tests/plugins/examples.hpp"
#include "tests/plugins/held.hpp"
#include "units/measures.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <map>
#include <string>
#include <string_view>

namespace vatwright::test {
namespace models_sweep_test {

constexpr std::string_view of_readings =
    "reckons readings: what it is uncertain by is theirs, and that of their repeats";
constexpr std::string_view weighing = "masses, volumes and formulas: nothing is taken to be so";
constexpr std::string_view as_stated = "a dose as it was stated, times the lot";
constexpr std::string_view of_the_law = "what a law says, and its words";

const std::map<std::string_view, std::string_view> without = {
    {"acid.titration", of_readings},
    {"assay.calibration", of_readings},
    {"assay.density", of_readings},
    {"assay.enzymatic", of_readings},
    {"assay.reducing", of_readings},
    {"assay.volatile", of_readings},
    {"blend.design", "a search: the sheet of blend.mix on its shares has the ±"},
    {"blend.scale", as_stated},
    {"cellar.dose", as_stated},
    {"cold.treatment", as_stated},
    {"control.chart", of_readings},
    {"control.duplicates", of_readings},
    {"control.meter", of_readings},
    {"control.recovery", of_readings},
    {"control.report", of_readings},
    {"ferment.round", "counts tanks; the figures of one are those of ferment.course"},
    {"ferment.yeast", as_stated},
    {"label.ingredients", of_the_law},
    {"label.strength", of_the_law},
    {"pink.colour", "reckons readings; what a must loses on the way to wine stands as both ends"},
    {"pink.contact", "its course is fitted, and has the ± of the fit; a colour of the wine gives both ends"},
    {"pink.harvest", "its courses are fitted, and have the intervals of the fit"},
    {"reagent.dilution", weighing},
    {"reagent.factor", of_readings},
    {"reagent.solution", weighing},
    {"sugar.alcohol", "OIML R 22 defines the strength of ethanol and water"},
    {"sugar.extract", "Tabarié's relation defines the extract"},
    {"sulfite.molecular",
     "pK1 is agreed with the targets, which were set with it; the other published way stands beside it"},
    {"sulfite.titration", of_readings},
};

TEST(Models, EveryCalculationStatesItsOwnOrStandsHereWithTheReason) {
  std::size_t listed = 0;
  each_calculation([&](const std::string& id, const Calculation& calculation) {
    const bool has_none = without.contains(id);
    listed += has_none ? 1 : 0;
    EXPECT_EQ(calculation.models.empty(), has_none)
        << (has_none ? "it has models, and is listed here as one that has none"
                     : "say how far its models are off (Model<...>, .models), or list it here with the reason");
  });
  EXPECT_EQ(listed, without.size()) << "one that is listed here is gone";
}

TEST(Models, AreNeverNoughtAndHaveASource) {
  each_calculation([](const std::string&, const Calculation& calculation) {
    for (const ModelInfo* model : calculation.models) {
      EXPECT_FALSE(model->name.empty());
      EXPECT_FALSE(model->help.empty()) << model->name;
      EXPECT_FALSE(model->source.title.empty() && model->source.standing.empty()) << model->name;
      EXPECT_GT(model->standard, 0) << model->name;
      EXPECT_TRUE(measures(parse_unit(model->unit), model->dimension)) << model->name << ", " << model->unit;
      EXPECT_EQ(std::count(calculation.models.begin(), calculation.models.end(), model), 1) << model->name;
    }
  });
}

// Whether a result, or what becomes of the lot, is another where the model is off, with the dose held or decided anew.
bool moves(const StepSheet& step, const ModelInfo& model) {
  for (const bool anew : {false, true})
    for (const double by : {-1.0, 1.0}) {
      HeldStep there(step), leaning(step);
      leaning.lean(model, by);
      if (anew) {
        there.decide_anew();
        leaning.decide_anew();
      }
      try {
        const auto before = there.run(), after = leaning.run();
        if (before.results.size() != after.results.size()) return true;
        for (std::size_t i = 0; i < before.results.size(); ++i)
          if (before.results[i].number != after.results[i].number) return true;
      } catch (const InputError&) {  // there may be nothing to decide on
      }
    }
  return false;
}

// Each model that is stated enters a result of the example, or stands here with the reason why not there.
TEST(Models, EachOfThemMovesAResult) {
  constexpr std::string_view handed_on = "it moves the pH that is handed on, which is no result";
  constexpr std::string_view measured = "the example has that measured", not_asked = "the example does not ask for it";
  const std::map<std::string, std::string_view> not_there = {
      {"cellar.racking, wine in lees", not_asked},
      {"cellar.cooling, sugar to heat", not_asked},
      {"cold.tartrate, the solubility of bitartrate", "of the other of its two models"},
      {"cold.calcium, the acids that nobody measured", measured},
      {"label.nutrition, organic acids by titration", measured},
      {"sugar.enrichment, density to sugar", measured},
      {"sugar.enrichment, the acids that nobody measured", handed_on},
      {"sugar.fortification, the acids that nobody measured", handed_on},
      {"sugar.dosage, the acids that nobody measured", handed_on},
      {"sugar.sweetening, the acids that nobody measured", handed_on},
      {"sugar.concentration, the acids that nobody measured", handed_on},
      {"sugar.water, the acids that nobody measured", handed_on},
  };
  each_calculation([&](const std::string& id, const Calculation& calculation) {
    if (calculation.models.empty()) return;
    const auto sheet = run_example(id, calculation);
    const auto& step = sheet.steps.back();
    if (!calculation.repeatable) {
      const auto& results = step.outcome.results;
      EXPECT_TRUE(std::any_of(results.begin(), results.end(), [](const auto& r) { return r.own_standard > 0; }));
      return;
    }
    for (const ModelInfo* model : calculation.models) {
      const std::string name = id + ", " + std::string(model->name);
      EXPECT_NE(moves(step, *model), not_there.contains(name)) << name;
    }
  });
}

}  // namespace models_sweep_test
}  // namespace vatwright::test
