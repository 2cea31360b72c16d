// host/rules/*.yaml against the figures of the laws themselves, written here a second time from
// the text that the comment above each table names. Reads the files with yaml-cpp alone, so that a
// slip in the host's own reader cannot hide one in the data.
#include "units/parse.hpp"

#include <gtest/gtest.h>
#include <yaml-cpp/yaml.h>

#include <algorithm>
#include <map>
#include <optional>
#include <span>
#include <stdexcept>
#include <string>
#include <vector>

namespace vatwright {
namespace legal_limits_test {

struct Lot {
  std::string stage = "wine", wine_class = "still", colour{};
  double sugar = 0;  // g/L
  std::string zone = "C I";
  // What else the text may ask for: a must of 22 °Brix, nothing done to it.
  std::string must_solids = "22 °Brix", amelioration = "0 %", gained = "0 % vol", ethanol = "12 % vol";
};

double coherent_of(const std::string& text) { return parse(text).value; }

// "below 5 g/L", "at least 5 g/L", "above 4 g/L", "at most 4 g/L"
bool meets(const std::string& condition, double found) {
  const auto figure = coherent_of(condition.substr(condition.find_first_of("0123456789")));
  if (condition.starts_with("below ")) return found < figure;
  if (condition.starts_with("above ")) return found > figure;
  if (condition.starts_with("at least ")) return found >= figure;
  if (condition.starts_with("at most ")) return found <= figure;
  throw std::runtime_error("a condition that this test cannot read: " + condition);
}

bool applies(const YAML::Node& when, const Lot& lot) {
  const std::map<std::string, std::string> words{
      {"stage", lot.stage}, {"class", lot.wine_class}, {"colour", lot.colour}, {"zone", lot.zone}};
  const std::map<std::string, std::string> figures{{"must solids", lot.must_solids},
                                                   {"amelioration", lot.amelioration},
                                                   {"strength gained", lot.gained},
                                                   {"ethanol", lot.ethanol}};
  for (const auto& condition : when) {
    const auto key = condition.first.as<std::string>();
    if (key == "sugar") {
      if (!meets(condition.second.as<std::string>(), lot.sugar)) return false;
    } else if (figures.contains(key)) {
      if (!meets(condition.second.as<std::string>(), coherent_of(figures.at(key)))) return false;
    } else if (condition.second.IsSequence()) {
      const auto allowed = condition.second.as<std::vector<std::string>>();
      if (std::find(allowed.begin(), allowed.end(), words.at(key)) == allowed.end()) return false;
    } else if (condition.second.as<std::string>() != words.at(key)) {
      return false;
    }
  }
  return true;
}

// A law prints some figures in two units, one of them rounded.
constexpr double tolerance = 1e-3;

// The strictest row of a topic for a lot; `sense` is "at most", "below" or "at least".
std::optional<YAML::Node> strictest(const std::string& rules, const std::string& topic, const std::string& sense,
                                    const Lot& lot) {
  static std::map<std::string, YAML::Node> files;
  if (!files.contains(rules)) files[rules] = YAML::LoadFile(VATWRIGHT_SOURCE_DIR "/host/rules/" + rules + ".yaml");
  const YAML::Node rows = files[rules][topic];
  std::optional<YAML::Node> found;
  for (const auto& row : rows) {
    if (!row[sense] || (row["when"] && !applies(row["when"], lot))) continue;
    const double figure = coherent_of(row[sense].as<std::string>());
    const double best = found ? coherent_of((*found)[sense].as<std::string>()) : figure;
    if (!found || (sense == "at least" ? figure > best : figure < best)) found.emplace(row);
  }
  return found;
}

struct Figure {
  const char* topic;
  Lot lot;
  const char* law;  // the figure of the law; empty: the law has none for this lot
  const char* article;
  const char* sense = "at most";
};

void checks(const std::string& rules, std::span<const Figure> figures) {
  for (const auto& f : figures) {
    SCOPED_TRACE(rules + ", " + f.topic + ", " + f.lot.stage + " " + f.lot.wine_class + " " + f.lot.colour +
                 ", sugar " + std::to_string(f.lot.sugar));
    const auto row = strictest(rules, f.topic, f.sense, f.lot);
    if (std::string(f.law).empty()) {
      EXPECT_FALSE(row.has_value());
      continue;
    }
    ASSERT_TRUE(row.has_value()) << "no row";
    const auto ours = parse((*row)[f.sense].as<std::string>()), theirs = parse(f.law);
    EXPECT_EQ(ours.dimension, theirs.dimension);
    EXPECT_NEAR(ours.value, theirs.value, tolerance * theirs.value) << (*row)[f.sense];
    EXPECT_NE((*row)["source"].as<std::string>().find(f.article), std::string::npos) << (*row)["source"];
  }
}

Lot red(double sugar) { return {.colour = "red", .sugar = sugar}; }
Lot white(double sugar) { return {.colour = "white", .sugar = sugar}; }
Lot pink(double sugar) { return {.colour = "pink", .sugar = sugar}; }
Lot sparkling() { return {.wine_class = "sparkling", .colour = "white", .sugar = 8}; }
Lot liqueur(double sugar) { return {.wine_class = "liqueur", .colour = "red", .sugar = sugar}; }
Lot must() { return {.stage = "must", .colour = "white", .sugar = 200}; }

// Commission Delegated Regulation (EU) 2019/934, Annex I, Part B, section A: 150 mg/L red, 200 mg/L
// white and rosé; with at least 5 g/L of glucose and fructose 200 and 250. Section C: quality
// sparkling wine 185, other sparkling wine 235 (from memory); what a lot says does not tell the two apart.
// Outside check of sulfite.addition: 9 values within 0.1 %, seen.
// Source: Delegated Regulation (EU) 2019/934, Annex I, Part B.
// Outside check of sulfite.addition: 1 value within 0.1 %, from memory.
// Source: Delegated Regulation (EU) 2019/934, Annex I, Part B, sparkling wine.
TEST(LegalLimits, EuTotalSulfurDioxide) {
  const Figure figures[] = {
      {"total SO2", red(0), "150 mg/L", "2019/934"},
      {"total SO2", red(4.99), "150 mg/L", "2019/934"},
      {"total SO2", red(5), "200 mg/L", "2019/934"},
      {"total SO2", red(40), "200 mg/L", "2019/934"},
      {"total SO2", white(0), "200 mg/L", "2019/934"},
      {"total SO2", white(4.99), "200 mg/L", "2019/934"},
      {"total SO2", white(5), "250 mg/L", "2019/934"},
      {"total SO2", pink(1.8), "200 mg/L", "2019/934"},
      {"total SO2", pink(12), "250 mg/L", "2019/934"},
      {"total SO2", sparkling(), "185 mg/L", "2019/934"},
      {"total SO2", must(), "", ""},
  };
  checks("EU", figures);
}

// Implementing Regulation (EU) 203/2012, carried on in (EU) 2021/1165, Annex V, Part D (from memory):
// below 2 g/L of residual sugar 100 mg/L red, 150 mg/L white and rosé; other wines 30 mg/L below the
// common limit.
// Outside check of sulfite.addition: 8 values within 0.1 %, from memory.
// Source: Implementing Regulation (EU) 2021/1165, Annex V, Part D.
TEST(LegalLimits, EuOrganicTotalSulfurDioxide) {
  const Figure figures[] = {
      {"total SO2", red(1.9), "100 mg/L", "203/2012"},
      {"total SO2", red(2), "120 mg/L", "203/2012"},
      {"total SO2", red(5), "170 mg/L", "203/2012"},
      {"total SO2", white(1.9), "150 mg/L", "203/2012"},
      {"total SO2", pink(1.8), "150 mg/L", "203/2012"},
      {"total SO2", pink(2), "170 mg/L", "203/2012"},
      {"total SO2", white(5), "220 mg/L", "203/2012"},
      {"total SO2", sparkling(), "155 mg/L", "203/2012"},
      {"total SO2", must(), "", ""},
  };
  checks("EU organic", figures);
}

// Implementing Regulation (EU) 203/2012, Annex VIIIa, from memory: what the list of organic wine-making does
// not have. No calculation is checked by figures of nothing.
TEST(LegalLimits, EuOrganicLeavesOut) {
  const Figure figures[] = {
      {"carboxymethylcellulose", white(0), "0 mg/L", "203/2012"},
      {"potassium polyaspartate", white(0), "0 mg/L", "203/2012"},
      {"PVPP", must(), "0 g/hL", "203/2012"},
      {"lysozyme", white(0), "0 mg/L", "203/2012"},
      {"copper sulfate", white(0), "0 g/hL", "203/2012"},
      {"ammonium sulfate", must(), "0 g/L", "203/2012"},
  };
  checks("EU organic", figures);
}

// Regulation (EC) 423/2008, Annex IV: 1 g/L of diammonium phosphate or ammonium sulfate in must, 0.3 g/L in a
// second fermentation.
// Outside check of nutrient.nitrogen: 4 values within 0.1 %, seen.
// Source: Regulation (EC) 423/2008, Annex IV.
TEST(LegalLimits, EuAmmoniumSalts) {
  const Figure figures[] = {
      {"diammonium phosphate", must(), "1 g/L", "423/2008"},
      {"diammonium phosphate", sparkling(), "0.3 g/L", "423/2008"},
      {"ammonium salts", must(), "1 g/L", "606/2009"},
      {"ammonium salts", sparkling(), "0.3 g/L", "423/2008"},
  };
  checks("EU", figures);
}

// OIV-MA-C1-01 (2019): 150 mg/L red and 200 mg/L white and rosé up to 4 g/L of reducing substances,
// 300 mg/L beyond; volatile acidity 20 meq/L; sodium in excess 80 mg/L.
// Outside check of sulfite.addition, acid.titration: 7 values within 0.1 %, seen.
// Source: OIV-MA-C1-01 (2019).
TEST(LegalLimits, OivCompendium) {
  const Figure figures[] = {
      {"total SO2", red(4), "150 mg/L", "OIV-MA-C1-01"},        {"total SO2", red(4.1), "300 mg/L", "OIV-MA-C1-01"},
      {"total SO2", white(4), "200 mg/L", "OIV-MA-C1-01"},      {"total SO2", pink(4), "200 mg/L", "OIV-MA-C1-01"},
      {"total SO2", pink(12), "300 mg/L", "OIV-MA-C1-01"},      {"total SO2", must(), "", ""},
      {"volatile acidity", red(0), "20 meq/L", "OIV-MA-C1-01"}, {"sodium", white(0), "80 mg/L", "OIV-MA-C1-01"},
  };
  checks("OIV", figures);
}

// OIV Code of Oenological Practices, Annex "Maximum acceptable limits", and II.3.1.1.1 for the acids;
// residual tartaric acid from "Chemical de-acidification, wines". What is added to a must stays in its wine.
// Outside check of acid.addition, acid.reduction, cold.treatment, blend.scale, nutrient.nitrogen: 12 values
// within 0.1 %, seen.
// Source: OIV Code of Oenological Practices.
TEST(LegalLimits, OivCodeOfPractices) {
  const Figure figures[] = {
      {"added acidity", must(), "54 meq/L", "OIV"},
      {"citric acid", white(0), "1 g/L", "OIV"},
      {"citric acid", must(), "1 g/L", "OIV"},
      {"metatartaric acid", white(0), "10 g/hL", "OIV"},
      {"ascorbic acid", white(0), "250 mg/L", "OIV"},
      {"lysozyme", white(0), "500 mg/L", "OIV"},
      {"gum arabic", white(0), "0.3 g/L", "OIV"},
      {"copper sulfate", white(0), "1 g/hL", "OIV"},
      {"copper residual", white(0), "1 mg/L", "OIV"},
      {"activated carbon", must(), "100 g/hL", "OIV"},
      {"diammonium phosphate", must(), "0.3 g/L", "OIV"},
      {"ammonium sulfate", must(), "0.3 g/L", "OIV"},
      {"residual tartaric acid", white(0), "1 g/L", "OIV", "at least"},
  };
  checks("OIV", figures);
}

// Regulation (EC) 643/2006, Annex I (repealed). Regulation (EU) 1308/2013, Annex VIII, Part I, C after
// (EU) 2021/2117: acidification 4 g/L as tartaric acid or 53.3 meq/L, deacidification 1 g/L or 13.3
// meq/L (from memory). Annex VII, Part II: least total acidity 3.5 g/L or 46.6 meq/L. (EU) 2019/934, Annex I, Part C,
// as read in SI 2011/2936 (UK), schedule 2, paragraph 3: volatile acidity 18 meq/L of white and rosé, 20 meq/L of red.
// Acidification and enrichment shut each other out (1308/2013, Annex VIII, Part I, C, from memory).
// Outside check of acid.addition, acid.reduction, cold.treatment, blend.scale: 10 values within 0.1 %, seen.
// Source: Regulations (EC) 643/2006 and (EU) 1308/2013; SI 2011/2936 (UK).
// Outside check of acid.addition, acid.reduction: 3 values within 0.1 %, from memory.
// Source: Regulation (EU) 1308/2013, Annex VIII, after (EU) 2021/2117.
TEST(LegalLimits, EuAcidsAndAdditives) {
  const Figure figures[] = {
      {"volatile acidity", white(0), "18 meq/L", "2019/934"},
      {"volatile acidity", pink(0), "18 meq/L", "2019/934"},
      {"volatile acidity", red(0), "20 meq/L", "2019/934"},
      {"added acidity", must(), "4 g/L as tartaric acid", "1308/2013"},
      {"removed acidity", white(0), "1 g/L as tartaric acid", "1308/2013"},
      {"total acidity of wine", white(0), "46.6 meq/L", "1308/2013", "at least"},
      {"citric acid", white(0), "1 g/L", "643/2006"},
      {"citric acid", must(), "1 g/L", "643/2006"},
      {"enriched before acidification", must(), "0 % vol", "1308/2013"},
      {"metatartaric acid", white(0), "100 mg/L", "643/2006"},
      {"ascorbic acid", white(0), "250 mg/L", "643/2006"},
      {"activated carbon", must(), "100 g/hL", "643/2006"},
      {"yeast hulls", must(), "40 g/hL", "643/2006"},
  };
  checks("EU", figures);
}

// 27 CFR 4.22(b)(1) and 4.32(e) for sulfur dioxide; 27 CFR 24.246 (2015) for materials, here in the
// pounds per 1000 gallons of its text; the file may hold the rounded grams per litre beside them.
// Outside check of sulfite.addition, blend.scale, cold.treatment: 9 values within 0.1 %, seen.
// Source: 27 CFR 4.22, 4.32 and 24.246 (2015).
TEST(LegalLimits, UsSulfurDioxideAndMaterials) {
  const Figure figures[] = {
      {"total SO2", red(0), "350 mg/L", "27 CFR 4.22"},
      {"total SO2", pink(60), "350 mg/L", "27 CFR 4.22"},
      {"sulfite declaration", white(0), "10 mg/L", "27 CFR 4.32(e)", "below"},
      {"sorbic acid", white(0), "300 mg/L", "27 CFR 24.246"},
      {"lysozyme", white(0), "500 mg/L", "27 CFR 24.246"},
      {"copper added", white(0), "6 mg/L", "27 CFR 24.246"},
      {"copper residual", white(0), "0.5 mg/L", "27 CFR 24.246"},
      {"potassium bitartrate seed", white(0), "35 lb/1000 gal", "27 CFR 24.246"},
      {"PVPP", must(), "60 lb/1000 gal", "27 CFR 24.246"},
  };
  checks("US", figures);
}

// 27 CFR 24.246 (2015), rows whose printed grams per litre are rounded by more than one part in a
// thousand: the file holds the printed figure.
// Outside check of nutrient.nitrogen, blend.scale, acid.addition: 8 values within 0.1 %, seen.
// Source: 27 CFR 24.246 (2015).
TEST(LegalLimits, UsMaterialsAsPrinted) {
  const Figure figures[] = {
      {"diammonium phosphate", must(), "0.96 g/L", "27 CFR 24.246"},
      {"thiamine hydrochloride", must(), "0.6 mg/L", "27 CFR 24.246"},
      {"yeast hulls", must(), "0.36 g/L", "27 CFR 24.246"},
      {"citric acid", white(0), "0.7 g/L", "27 CFR 24.246"},
      {"citric acid", must(), "0.7 g/L", "27 CFR 24.246"},
      {"fumaric acid", white(0), "3.0 g/L", "27 CFR 24.246"},
      {"gum arabic", white(0), "0.24 g/L", "27 CFR 24.246"},
      {"activated carbon", must(), "3.0 g/L", "27 CFR 24.246"},
  };
  checks("US", figures);
}

// 27 CFR 24.246 (2015): tannin up to 150 mg/L more, and 0.8 g/L in white wine or 3.0 g/L in red as gallic acid.
// Egg white: 1.5 gal of brine for 1000 gal, with 2 lb in a gallon, is 3 lb/1000 gal, which that text prints as
// 0.36 g/L of yeast hulls.
// Outside check of blend.scale: 3 values within 0.1 %, seen.
// Source: 27 CFR 24.246 (2015), tannin.
// Outside check of blend.scale: 1 value within 0.1 %, derived.
// Source: 27 CFR 24.246 (2015), egg white.
TEST(LegalLimits, UsTanninAndEggWhite) {
  const Figure figures[] = {
      {"tannin", red(0), "150 mg/L", "27 CFR 24.246"},
      {"tannin residual", white(0), "0.8 g/L", "27 CFR 24.246"},
      {"tannin residual", red(0), "3.0 g/L", "27 CFR 24.246"},
      {"egg albumin", red(0), "0.36 g/L", "27 CFR 24.246"},
  };
  checks("US", figures);
}

// 27 CFR 24.182(b) (2015): the finished wine may not go above 9.0 g/L of fixed acidity by acid that was added before,
// during or after fermentation; 11.0 g/L where the wine has 8.0 g or more of total solids in 100 mL.
// Outside check of acid.addition: 5 values within 0.1 %, seen.
// Source: 27 CFR 24.182 (2015).
TEST(LegalLimits, UsFixedAcidity) {
  const Figure figures[] = {
      {"fixed acidity after acidification", must(), "9.0 g/L as tartaric acid", "27 CFR 24.182"},
      {"fixed acidity after acidification", white(0), "9.0 g/L as tartaric acid", "27 CFR 24.182"},
      {"fixed acidity after acidification", white(79), "9.0 g/L as tartaric acid", "27 CFR 24.182"},
      {"fixed acidity after acidification", white(80), "11.0 g/L as tartaric acid", "27 CFR 24.182"},
      {"fixed acidity after acidification", red(120), "11.0 g/L as tartaric acid", "27 CFR 24.182"},
  };
  checks("US", figures);
}

// OIV labelling standard 2.3: declared from 10 mg/L on. Regulation (EU) 1169/2011: declared above 10 mg/L.
// Outside check of sulfite.addition: 2 values within 0.1 %, seen.
// Source: OIV labelling standard; Regulation (EU) 1169/2011.
TEST(LegalLimits, SulfiteDeclaration) {
  const Figure oiv[] = {{"sulfite declaration", white(0), "10 mg/L", "OIV", "below"}};
  checks("OIV", oiv);
  const Figure eu[] = {{"sulfite declaration", white(0), "10 mg/L", "1169/2011"}};
  checks("EU", eu);
}

// OIV Code: sorbic acid II.3.4.5, fumaric acid II.3.4.23 and OIV-OENO 738-2025 for must, chitosan 3.4.16, cellulose gum
// II.3.3.14, liqueur wine I.4.3, no spirit in wine as such II.3.5.1, sparkling wine I.4.4.
// Outside check of blend.scale, cold.treatment, sugar.fortification, sugar.enrichment: 10 values within 0.1 %, seen.
// Source: OIV Code of Oenological Practices, agents against microbes, and special wines.
TEST(LegalLimits, OivAgentsAndSpecialWines) {
  const Figure figures[] = {
      {"sorbic acid", white(0), "200 mg/L", "II.3.4.5"},
      {"fumaric acid", white(0), "600 mg/L", "II.3.4.23"},
      {"fumaric acid", must(), "0.8 g/L", "738-2025"},
      {"chitosan", white(0), "100 g/hL", "3.4.16"},
      {"carboxymethylcellulose", pink(0), "200 mg/L", "586-2019"},
      {"strength after fortification", liqueur(90), "22 % vol", "I.4.3"},
      {"strength after fortification", white(0), "0 % vol", "II.3.5.1"},
      {"strength after fortification", sparkling(), "0 % vol", "II.3.5.1"},
      {"least strength of liqueur wine", liqueur(90), "15 % vol", "I.4.3", "at least"},
      {"least overpressure", sparkling(), "3.5 bar", "I.4.4", "at least"},
  };
  checks("OIV", figures);
}

// SSI 2024/11, row 2.8: fumaric acid, wine only, against malolactic fermentation.
// Outside check of blend.scale: 2 values within 0.1 %, seen.
// Source: SSI 2024/11, fumaric acid.
// Liqueur wine: 15 to 22 % vol, sulfur dioxide 150 and 200 mg/L, from memory.
// Outside check of sulfite.addition, sugar.fortification: 6 values within 0.1 %, from memory.
// Source: Regulations (EU) 1308/2013, Annex VII, and 2019/934, Annex I, liqueur wine.
TEST(LegalLimits, EuFumaricAcidAndLiqueurWine) {
  const Figure figures[] = {
      {"fumaric acid", white(0), "0.6 g/L", "SSI 2024/11"},
      {"fumaric acid", must(), "0 g/L", "SSI 2024/11"},
      {"total SO2", liqueur(4.9), "150 mg/L", "2019/934"},
      {"total SO2", liqueur(5), "200 mg/L", "2019/934"},
      {"strength after fortification", liqueur(90), "22 % vol", "1308/2013"},
      {"strength after fortification", red(0), "0 % vol", "1308/2013"},
      {"strength after fortification", sparkling(), "0 % vol", "1308/2013"},
      {"least strength of liqueur wine", liqueur(90), "15 % vol", "1308/2013", "at least"},
  };
  checks("EU", figures);
}

// 27 CFR 24.177: sugar up to 25 °Brix. 26 USC 5382(b)(2): spirit up to 24 % vol. 27 CFR 4.21(a)(1)(iv): volatile
// acidity. 27 CFR 24.182(b) and 24.246: fumaric acid after fermentation only. Tannin of pink wine as of white, the
// stricter.
// Outside check of sugar.enrichment, sugar.fortification, blend.scale, acid.titration: 7 values within 0.1 %, seen.
// Source: 27 CFR 4.21, 24.177, 24.182, 24.246 and 26 USC 5382.
TEST(LegalLimits, UsSugarSpiritAndVolatileAcidity) {
  const Figure figures[] = {
      {"soluble solids after enrichment", must(), "25 °Brix", "24.177"},
      {"strength after fortification", liqueur(90), "24 % vol", "5382(b)(2)"},
      {"volatile acidity", red(0), "1.4 g/L as acetic acid", "27 CFR 4.21"},
      {"volatile acidity", white(0), "1.2 g/L as acetic acid", "27 CFR 4.21"},
      {"volatile acidity", pink(0), "1.2 g/L as acetic acid", "27 CFR 4.21"},
      {"fumaric acid", must(), "0 g/L", "24.182"},
      {"tannin residual", pink(0), "0.8 g/L", "24.246"},
  };
  checks("US", figures);
}

Lot grown(const std::string& solids, const std::string& colour, const std::string& water = "0 %") {
  return {.colour = colour, .must_solids = solids, .amelioration = water};
}
Lot stretched(const std::string& ethanol) { return {.colour = "white", .amelioration = "20 %", .ethanol = ethanol}; }
Lot fresh(const std::string& solids) { return {.stage = "must", .colour = "white", .must_solids = solids}; }

// 27 CFR 24.176: water to crush by, not below 22 °Brix; below 23 one degree.
// 24.178: amelioration, 35 % of the whole, no less than 5.0 g/L of fixed acid; 24.182(a): then no acid below pH 3.0.
// 26 USC 5383, 27 CFR 24.179: sweetening, 12 % of total solids, 14 % vol; ameliorated 21, above 14 % vol 17.
// 4.21: juice of 28 °Brix. 24.241: colour stays.
// Outside check of sugar.water, sugar.sweetening, acid.addition, blend.mix: 13 values within 0.1 %, seen.
// Source: 27 CFR 4.21, 24.176 to 24.182 (2015), 26 USC 5382 and 5383.
// Outside check of cellar.dose: 1 value within 0.1 %, seen.
// Source: 27 CFR 24.241 (2015).
TEST(LegalLimits, UsWaterSweeteningAndColour) {
  const Figure figures[] = {
      {"soluble solids after water", fresh("23 °Brix"), "22 °Brix", "24.176", "at least"},
      {"soluble solids after water", fresh("22.9 °Brix"), "", "", "at least"},
      {"soluble solids lost to water", fresh("22.9 °Brix"), "1 °Brix", "24.176"},
      {"ameliorating water", must(), "35 %", "24.178"},
      {"fixed acidity after amelioration", must(), "5.0 g/L as tartaric acid", "24.178", "at least"},
      {"pH after acidification", stretched("12 % vol"), "3.0 pH", "24.182(a)", "at least"},
      {"pH after acidification", white(0), "", "", "at least"},
      {"total solids after sweetening", white(0), "12 % mass", "5383(a)"},
      {"total solids after sweetening", stretched("14 % vol"), "21 % mass", "24.179(b)"},
      {"total solids after sweetening", stretched("14.1 % vol"), "17 % mass", "24.179(b)"},
      {"strength of a sweetened wine", white(0), "14 % vol", "5383(a)"},
      {"volatile acidity", grown("28 °Brix", "red"), "1.7 g/L as acetic acid", "4.21"},
      {"volatile acidity", grown("28 °Brix", "white"), "1.5 g/L as acetic acid", "4.21"},
      {"volatile acidity", grown("27.9 °Brix", "red"), "1.4 g/L as acetic acid", "4.21"},
      {"volatile acidity", grown("30 °Brix", "red", "10 %"), "1.4 g/L as acetic acid", "4.21"},
      {"light transmittance after decolouring", white(0), "95 %", "24.241"},
  };
  checks("US", figures);
}

// 1308/2013, Annex VIII, Part I, B 5: a fifth of the volume, 2 % vol.
// Recital 2 of 2019/934 and article 1(1) of 2022/68: 15 % vol, 20 without enrichment in zone C.
// From memory: Annex VIII, Part II, A 1, no water; 2019/934, Annex I, Part D, sweetening; PVI/PVP.
// Outside check of sugar.concentration, label.strength: 5 values within 0.1 %, seen.
// Source: Regulation (EU) No 1308/2013 as in Council document 7329/13; (EU) 2019/934, recital 2.
// Outside check of sugar.water, sugar.sweetening, cellar.dose: 3 values within 0.1 %, from memory.
// Source: Regulations (EU) 1308/2013, Annex VIII, Part II, and 2019/934, Annex I.
TEST(LegalLimits, EuConcentrationSweeteningAndStrength) {
  const auto from_zone = [](const std::string& zone, const std::string& gained) {
    Lot lot = white(0);
    lot.zone = zone;
    lot.gained = gained;
    return lot;
  };
  const Figure figures[] = {
      {"volume lost by concentration", must(), "20 %", "point 5"},
      {"strength gained by concentration", must(), "2 % vol", "point 5"},
      {"total strength of wine", from_zone("A", "0 % vol"), "15 % vol", "recital 2"},
      {"total strength of wine", from_zone("C II", "0.5 % vol"), "15 % vol", "recital 2"},
      {"total strength of wine", from_zone("C II", "0 % vol"), "20 % vol", "recital 2"},
      {"water added to must", must(), "0 %", "Part II, section A"},
      {"strength gained by sweetening", white(0), "4 % vol", "Part D"},
      {"PVI/PVP", white(0), "500 mg/L", "2019/934"},
  };
  checks("EU", figures);
}

// Outside check of cellar.dose: 1 value within 0.1 %, seen.
// Source: OIV Code of Oenological Practices, II.3.4.14, PVI/PVP.
// Outside check of cellar.dose: 1 value within 0.1 %, from memory.
// Source: Implementing Regulation (EU) No 203/2012, PVI/PVP.
TEST(LegalLimits, PviPvpElsewhere) {
  const Figure of_oiv[] = {{"PVI/PVP", white(0), "500 mg/L", "II.3.4.14"}};
  const Figure organic[] = {{"PVI/PVP", white(0), "0 mg/L", "203/2012"}};
  checks("OIV", of_oiv);
  checks("EU organic", organic);
}

// Activated carbon: for must, wine that still ferments and white wine (2019/934, Annex I, Part A, from memory).
// Outside check of blend.scale: 4 values within 0.1 %, from memory.
// Source: Delegated Regulation (EU) 2019/934, Annex I, Part A, activated carbon.
TEST(LegalLimits, EuCarbonByColour) {
  const Figure figures[] = {{"activated carbon", must(), "100 g/hL", "643/2006"},
                            {"activated carbon", white(0), "100 g/hL", "643/2006"},
                            {"activated carbon", pink(0), "0 g/hL", "2019/934"},
                            {"activated carbon", red(0), "0 g/hL", "2019/934"}};
  checks("EU", figures);
}

}  // namespace legal_limits_test
}  // namespace vatwright
