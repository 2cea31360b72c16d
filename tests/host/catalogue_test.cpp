// Entries of the catalogue of substances that are not in order are refused, so that no hazard or caution
// is left out without a sound.
#include "host/substances/catalogue.hpp"

#include <gtest/gtest.h>

#include "tests/folder.hpp"

namespace catalogue_test {

using namespace vatwright;
using vatwright::test::Folder;

const std::string sound =
    "salt:\n  formula: K2S2O5\n  form: solid\n  active: {formula: SO2, count: 2}\n"
    "  brings: {potassium: {formula: K, count: 2}}\n  uses: dosing\n"
    "  hazards:\n    - {code: H318, text: causes serious eye damage, standing: seen}\n"
    "  cautions:\n    - Wear goggles.\n  handling:\n    - Dissolve it.\n  source: {title: a book}\n";

std::string refusal(const std::string& from, const std::string& to) {
  std::string text = sound;
  const auto at = text.find(from);
  EXPECT_NE(at, std::string::npos) << from;
  text.replace(at, from.size(), to);
  const Folder folder;
  const Catalogue catalogue(folder.write("substances.yaml", text));
  try {
    catalogue.find("salt");
  } catch (const BadInput& error) {
    return error.what();
  }
  return "nothing";
}

TEST(CatalogueTest, AnEntryInOrder) {
  EXPECT_EQ(refusal("salt", "salt"), "nothing");
  EXPECT_EQ(
      refusal("  hazards:\n    - {code: H318, text: causes serious eye damage, standing: seen}\n", "  hazards: []\n"),
      "nothing");
}

TEST(CatalogueTest, WhatWouldLoseAHazardOrACautionIsRefused) {
  struct Case {
    const char *from, *to, *says;
  };
  const Case cases[] = {
      {"hazards:", "hazard:", "a substance has no 'hazard'"},
      {"  hazards:\n    - {code: H318, text: causes serious eye damage, standing: seen}\n", "",
       "a substance without 'hazards'"},
      {"code: H318", "cod: H318", "a hazard has no 'cod'"},
      {"code: H318, ", "", "a hazard without its code or text"},
      {"- Wear goggles.", "- Wear: goggles", "expected a sentence under 'cautions'"},
      {"- Wear goggles.", "- ''", "expected a sentence under 'cautions'"},
      {"cautions:\n    - Wear goggles.", "cautions: []", "a substance without 'cautions'"},
      {"cautions:\n    - Wear goggles.", "cautions: Wear goggles.", "expected a list under 'cautions'"},
      {"handling:\n    - Dissolve it.", "handling:\n    - [Dissolve]", "expected a sentence under 'handling'"},
      {"brings: {potassium", "brings: {potasium", "a lot has no 'potasium'"},
      {"count: 2}\n  brings", "counts: 2}\n  brings", "a part of a substance has no 'counts'"},
      {"  uses: dosing\n", "  uses: dosing\n  label: {is: aditive}\n", "expected what it counts as on the label"},
      {"  uses: dosing\n", "  uses: dosing\n  label: {is: additive, clas: gas}\n", "a label has no 'clas'"},
      {"title: a book", "tilte: a book", "a source has no 'tilte'"},
      {"title: a book", "place: page 3", "a source without 'title'"},
  };
  for (const auto& c : cases) EXPECT_NE(refusal(c.from, c.to).find(c.says), std::string::npos) << refusal(c.from, c.to);
}

}  // namespace catalogue_test
