// Every word that stands for an everyday one is a word that the program takes.
#include "units/everyday.hpp"

#include <gtest/gtest.h>

#include "host/plugin/lot.hpp"
#include "tests/host/house.hpp"
#include "units/basis.hpp"
#include "units/parse.hpp"

#include <algorithm>

namespace everyday_test {

using namespace vatwright;
using namespace vatwright::test;

bool is_unit(std::string_view text) {
  try {
    parse_unit(text);
    return true;
  } catch (const InputError&) {
    return false;
  }
}

bool is_of_a_lot(std::string_view word) {
  return std::any_of(lot::keys.begin(), lot::keys.end(), [&](const Input* key) {
    return key->name == word || std::find(key->choices.begin(), key->choices.end(), word) != key->choices.end();
  });
}

TEST(Everyday, OursAreKnown) {
  const Catalogue catalogue(build_dir / "share/vatwright/substances.yaml");
  for (const auto& [word, ours] : everyday_words())
    EXPECT_TRUE(is_unit(ours) || find_basis(ours) != nullptr || is_of_a_lot(ours) || catalogue.find(ours) != nullptr)
        << word << ": " << ours;
}

// None of them hides a word that the program takes itself.
TEST(Everyday, NoUnitIsAmongThem) {
  for (const auto& row : everyday_words()) EXPECT_FALSE(is_unit(row.ours) && is_unit(row.word)) << row.word;
}

}  // namespace everyday_test
