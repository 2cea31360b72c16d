// Every slip in a recipe is refused with its place, its remedy and nothing else. In the texts below
// '▸' stands where the message must point; it is taken out before the recipe is read.
#include "tests/host/house.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <ostream>

namespace bad_input_test {

using namespace vatwright::test;

constexpr std::string_view pointer = "▸";

struct Slip {
  const char* name;
  std::string text;
  std::string says;    // of what is wrong
  std::string remedy;  // of what to do
};

void PrintTo(const Slip& slip, std::ostream* out) { *out << slip.name; }

// A step that wants nothing of its lot, so that the one slip is all that is told.
constexpr char content[] =
    "  - pink.colour: {absorbance: {path: 10 mm, 420 nm: 0.3 AU, 520 nm: 0.4 AU, 620 nm: 0.1 AU}}\n";

std::string lot(const std::string& lines) { return "recipe: test\nlots:\n  T7:\n" + lines + "steps:\n" + content; }

std::string step(const std::string& line) { return recipe_with("", "  - " + line + "\n"); }

std::string in_flow(const std::string& entries) {
  return "recipe: test\nlots:\n  T7: {" + entries + "}\nsteps:\n" + content;
}

std::string two_lots(const std::string& steps) {
  return "recipe: test\nlots:\n  T7: {pH: 3.4, free SO2: 14 mg/L}\n  T8: {pH: 3.5, free SO2: 14 mg/L}\nsteps:\n" +
         steps;
}

const Slip slips[] = {
    {"wrong_dimension", lot("    volume: ▸48 kg\n"), "volume", "hL"},
    {"missing_unit", lot("    volume: 48▸\n"), "no unit", "write '48 L'"},
    {"missing_basis", lot("    titratable acidity: 5.1 g/L▸\n"), "titratable acidity", "acid basis"},
    {"decimal_comma_in_block", lot("    pH: 3▸,42\n"), "decimal comma", "decimal point"},
    {"decimal_comma_in_flow", in_flow("pH: 3,▸42, free SO2: 14 mg/L"), "decimal comma", "decimal point"},
    {"unknown_lot_key", lot("    ▸free S02: 14 mg/L\n"), "'free S02'", "'free SO2'"},
    {"lot_key_like_none", lot("    ▸zzzzzzzzz: 14 mg/L\n"), "'zzzzzzzzz'", "a lot has volume, temperature, "},
    {"unknown_calculation", step("▸sulfite.adition: {target free SO2: 30 mg/L}"), "'sulfite.adition'",
     "'sulfite.addition'"},
    {"unknown_step_input", step("sulfite.addition: {▸target molecular S02: 0.6 mg/L}"), "'target molecular S02'",
     "'target molecular SO2'"},
    {"unknown_top_level_key", recipe_with("", "  - sulfite.molecular\n", "▸acid bases: tartaric acid\n"),
     "'acid bases'", "'acid basis'"},
    {"unknown_acid", recipe_with("", "  - sulfite.molecular\n", "acid basis: ▸tartric acid\n"), "'tartric acid'",
     "'tartaric acid'"},
    {"unknown_word", lot("    colour: ▸pnik\n"), "'pnik'", "'pink'"},
    {"amounts_of_what_nobody_counts", lot("    treated with: {▸PVP: 60 g/hL}\n"), "PVP", "PVPP"},
    {"amounts_with_an_uncertainty", lot("    treated with: {PVPP: ▸60 ± 5 g/hL}\n"), "the ± in '60 ± 5 g/hL'",
     "the figure alone"},
    {"shares_with_an_uncertainty", lot("    varieties: {Sorrel: ▸60 ± 2 %, Blackthorn: 40 %}\n"), "the ± in '60 ± 2 %'",
     "the figure alone"},
    {"bounds_with_an_uncertainty",
     two_lots("  - blend.design: {volume: 10 hL, lots: [T7, T8], bounds: {pH: at most ▸3.4 ± 0.02}}\n"),
     "the ± in '3.4 ± 0.02'", "the figure alone"},
    {"a_path_with_an_uncertainty", lot("    absorbance: {path: ▸10 ± 1 mm, 520 nm: 0.4 AU}\n"), "the ± in '10 ± 1 mm'",
     "the figure alone"},
    {"amounts_without_a_unit", lot("    treated with: {PVPP: ▸60 cm}\n"), "60 cm", "mass per volume"},
    {"amounts_below_zero", lot("    treated with: {PVPP: ▸-60 g/hL}\n"), "-60 g/hL", "0 to"},
    {"nothing_written", lot("    pH: 3.4\n    ▸free SO2:\n    # none\n\n"), "free SO2: nothing is written here",
     "such as mg/L"},
    {"word_without_its_space", lot("    zone: ▸CII\n"), "'CII'", "the nearest is 'C II'"},
    {"word_of_the_trade", lot("    colour: ▸rosé\n"), "'rosé'", "the nearest is 'pink'"},
    {"key_of_the_trade", lot("    ▸alcohol: 12 % vol\n"), "'alcohol'", "'ethanol'"},
    {"unit_of_the_trade", lot("    volume: 48 ▸Liter\n"), "'Liter'", "'L'"},
    {"basis_by_its_formula", lot("    titratable acidity: 5 g/L as ▸H2SO4\n"), "'H2SO4'", "'sulfuric acid'"},
    {"substance_by_its_letters", step("sulfite.addition: {target free SO2: 30 mg/L, substance: ▸KMBS}"), "'KMBS'",
     "'potassium metabisulfite'"},
    {"wavelength_below_nought", lot("    absorbance: {path: 10 mm, ▸-520 nm: 0.4 AU}\n"),
     "'-520 nm' is outside what can be: 200 to 1100 nm", "check the figure and its unit"},
    {"wavelength_past_all_light", lot("    absorbance: {path: 10 mm, 420 nm: 0.2 AU, ▸1e30 nm: 0.4 AU}\n"),
     "'1e30 nm' is outside what can be: 200 to 1100 nm", "check the figure and its unit"},
    {"wavelength_in_the_wrong_unit", lot("    absorbance: {path: 10 mm, ▸520 µm: 0.4 AU}\n"),
     "'520 µm' is outside what can be: 200 to 1100 nm", "check the figure and its unit"},
    {"dose_of_a_series_below_nought", step("cold.protein: {series: {0 g/hL: 18 NTU, ▸-40 g/hL: 1.1 NTU}}"),
     "'-40 g/hL' is outside what can be: 0 to 1000 g/hL", "check the figure and its unit"},
    {"hours_before_the_crush",
     step("pink.contact: {target: 0.5 AU, readings: {path: 10 mm, ▸-2 h: 0.1 AU, 4 h: 0.3 AU, 8 h: 0.4 AU}}"),
     "'-2 h' is outside what can be: 0 to 240 h", "check the figure and its unit"},
    {"wavelength_twice", lot("    absorbance: {path: 10 mm, 520 nm: 0.4 AU, ▸520.0 nm: 0.6 AU}\n"),
     "'520.0 nm' is the same as '520 nm' in line 4, column 31", "keep one of the two"},
    {"dose_twice_in_two_units",
     step("cold.protein: {series: {0 g/hL: 20 NTU, 400 mg/L: 3 NTU, 60 g/hL: 1 NTU, ▸40 g/hL: 1 NTU}}"),
     "'40 g/hL' is the same as '400 mg/L'", "keep one of the two"},
    {"shares_that_miss_a_part", lot("    varieties: ▸{Sorrel: 60 %, Blackthorn: 30 %}\n"), "90", "expected 100 %"},
    {"pH_34", lot("    pH: ▸34\n"), "'34'", "check the figure"},
    {"negative_volume", lot("    volume: ▸-48 hL\n"), "'-48 hL'", "check the figure"},
    {"a_drop_of_wine", lot("    volume: ▸540 μL\n"), "outside what can be: 0.001 to 10000000 L", "check the figure"},
    {"free_above_total", lot("    pH: 3.4\n    free SO2: ▸62 mg/L\n    total SO2: 14 mg/L\n"), "above total SO2",
     "check which is which"},
    {"not_a_number", lot("    pH: ▸NaN\n"), "pH", "number"},
    {"infinite", lot("    volume: ▸inf L\n"), "volume", "number"},
    {"too_large_to_hold", lot("    volume: ▸1e999 L\n"), "1e999", ""},
    {"key_twice", lot("    pH: 3.4\n    ▸pH: 3.5\n"), "a second time (first in line 4)", "keep one"},
    {"two_documents", lot("    pH: 3.4\n") + "▸---\nrecipe: another\n", "second document", "one document"},
    {"not_YAML", "recipe: test\nlots: {T7: [\n▸}\n", "not YAML: a bracket is closed here that is not open",
     "close the one that is open"},
    {"bracket_open_in_a_step", "recipe: test\nsteps:\n  - sulfite.molecular: {pH: 3.4\n▸", "a '{' is not closed",
     "with '}'"},
    {"quote_that_is_not_closed", lot("    pH: ▸\"3.4\n"), "a quote that is not closed", "close it"},
    {"quote_with_another_within", lot("    pH: ▸'3.4''\n    zone: \"B\"\n"), "a quote that is not closed", "close it"},
    {"quote_that_is_not_closed_after_others",
     "recipe: \"Rosé \\\"7\\\"\"\nlots:\n  'T7': {\"pH\": '3.4', zone: ▸\"B}\n", "a quote that is not closed",
     "close it"},
    {"tab_before_a_key", "recipe: test\nlots:\n  T7:\n\t▸pH: 3.4\n", "a tab before a key", "write spaces"},
    {"key_out_of_its_column", lot("    pH: 3.4\n   ▸zone: B\n"), "the keys above do not go on here", "in one column"},
    {"key_without_its_colon", lot("    pH 3.4\n    zone▸: B\n"), "a ':' where none can stand", "the line above"},
    {"text_that_begins_with_a_sign", lot("    origin: ▸@home\n"), "cannot begin with this sign", "in quotes"},
    {"no_title", "▸lots: {T7: {pH: 3.4, free SO2: 14 mg/L}}\nsteps:\n  - sulfite.molecular\n", "no 'recipe:'",
     "such as 'recipe: "},
    {"no_steps", "▸recipe: test\nlots: {T7: {pH: 3.4}}\n", "no 'steps:'", "such as 'steps:'"},
    {"calculation_of_no_such_name", step("▸sulfite.dosing: {}"), "no calculation 'sulfite.dosing'",
     "there are: sulfite.molecular, "},
    {"plugin_alone", step("▸nutrient: {}"), "no calculation 'nutrient'", "'nutrient.nitrogen'"},
    {"calculation_without_its_plugin", step("▸addition: {}"), "no calculation 'addition'",
     "there are: acid.addition, sulfite.addition"},
    {"inputs_without_names", step("sulfite.addition: ▸0.6 mg/L"), "expected the inputs of sulfite.addition",
     "'vatwright show sulfite.addition' lists them"},
    {"part_of_an_input", step("sulfite.addition: {▸molecular SO2: 0.6 mg/L}"), "no input 'molecular SO2'",
     "'target molecular SO2'"},
    {"house_rules_that_are_not_there", recipe_with("", "  - sulfite.molecular\n", "rules: ▸cellar.yaml\n"),
     "there is no file 'cellar.yaml'", "beside the recipe"},
    {"below_the_detection_limit", lot("    free SO2: ▸<10 mg/L\n"), "'<10 mg/L' is a bound", "or leave it out"},
    {"coverage_without_uncertainty", lot("    free SO2: 14 ▸(k=2) mg/L\n"), "without the uncertainty",
     "'14 ± 4 (k=2) mg/L'"},
    {"no_pH_written", lot("    ▸pH:\n"), "pH: nothing is written here", "write a plain number"},
    {"reading_without_its_key",
     step("pink.harvest: {wanted: {sugar: 185 to 205 g/L}, readings: [▸{date: 2026-08-20, sugar: 180 g/L}]}"),
     "misses 'plot'", "add 'plot: ...'"},
    {"alias_cycle", "recipe: &a\n  - ▸*a\n", "an alias that stands inside what it repeats", "write the values out"},
    {"unknown_lot", two_lots("  - sulfite.molecular: {lot: ▸T77}\n"), "no lot 'T77'", "'T7'"},
    {"which_lot", two_lots("  - ▸sulfite.molecular: {}\n"), "T7, T8", "add 'lot: ...'"},
    {"two_targets", step("▸sulfite.addition: {target free SO2: 30 mg/L, target molecular SO2: 0.6 mg/L}"),
     "takes one of 'target molecular SO2', 'target free SO2', 'target total SO2', 'add', 'add on fruit', 'add liquid', "
     "given are",
     "keep one of them"},
    {"no_target", step("▸sulfite.addition: {}"),
     "takes one of 'target molecular SO2', 'target free SO2', 'target total SO2', 'add', 'add on fruit', 'add liquid', "
     "none is given",
     "write one of them in the step"},
    {"unknown_rules", recipe_with("", "  - sulfite.molecular\n", "rules: ▸UE\n"), "no rule set 'UE'", "EU"},
    // Flow style splits "48,5 hL" into 'volume: 48' and '5 hL'.
    {"decimal_comma_before_a_unit", in_flow("volume: 48,▸5 hL, pH: 3.4"), "decimal comma", "decimal point"},
    {"decimal_comma_in_a_step", step("sulfite.addition: {target free SO2: 30,▸5 mg/L}"), "decimal comma",
     "decimal point"},
};

struct Place {
  int line = 1, column = 1;
};

Place take_pointer(std::string& text) {
  const auto at = text.find(pointer);
  Place place;
  for (std::size_t i = 0; i < at && i < text.size(); ++i) {
    if (text[i] == '\n')
      ++place.line, place.column = 1;
    else if ((text[i] & 0xC0) != 0x80)
      ++place.column;
  }
  text.erase(at, pointer.size());
  return place;
}

class BadInputTest : public testing::TestWithParam<Slip> {};

TEST_P(BadInputTest, IsRefusedInTheProcessWithItsPlaceAndRemedy) {
  std::string text = GetParam().text;
  const auto [line, column] = take_pointer(text);
  const std::string said = complaint(text);
  const std::string place = "recipe.yaml:" + std::to_string(line) + ":" + std::to_string(column) + ": ";
  EXPECT_EQ(said.substr(0, place.size()), place) << said;
  EXPECT_NE(said.find(GetParam().says), std::string::npos) << said;
  EXPECT_NE(said.find(GetParam().remedy), std::string::npos) << said;
}

TEST_P(BadInputTest, EndsTheProgramWithOneMessageAndNoDose) {
  std::string text = GetParam().text;
  const auto [line, column] = take_pointer(text);
  const Folder folder;
  const auto file = folder.write("recipe.yaml", text).string();
  const auto said = call({"run", file});
  EXPECT_EQ(said.status, 2) << said.err;
  EXPECT_EQ(said.out, "");
  const std::string place = file + ":" + std::to_string(line) + ":" + std::to_string(column) + ": ";
  EXPECT_EQ(said.err.substr(0, place.size()), place) << said.err;
  EXPECT_EQ(said.err.find(file, 1), std::string::npos) << "more than one message: " << said.err;
  EXPECT_EQ(said.err.find("[ ]"), std::string::npos) << "a dose: " << said.err;
}

INSTANTIATE_TEST_SUITE_P(Slips, BadInputTest, testing::ValuesIn(slips),
                         [](const auto& slip) { return std::string(slip.param.name); });

// Everything that is missing is told at once: what the target goes by, and what a limit of the rules does.
TEST(MissingInputsTest, AreAllNamed) {
  const std::string text =
      "recipe: test\nrules: EU\nlots:\n  T7: {volume: 48 hL}\nsteps:\n  - sulfite.addition: {target molecular SO2: 0.6 "
      "mg/L}\n";
  std::string said;
  try {
    TestHouse().run(text);
  } catch (const vatwright::BadInput& error) {
    said = error.what();
  }
  EXPECT_EQ(said.substr(0, 17), "recipe.yaml:6:5: ") << said;
  for (const auto* missing : {"'pH'", "'free SO2'", "'total SO2'"})
    EXPECT_NE(said.find(missing), std::string::npos) << missing << " is not named: " << said;
  EXPECT_EQ(said.find("'volume'"), std::string::npos) << said;
}

}  // namespace bad_input_test
