#include "host/rules/become_wine.hpp"

#include <algorithm>
#include <array>

namespace vatwright {
namespace {

constexpr std::array<const Input*, 4> fermented_away{&lot::sugar, &lot::ethanol, &lot::soluble_solids, &lot::density};

const Value* the_word_wine() {
  static const Value wine = [] {
    Value value;
    value.word = "wine";
    return value;
  }();
  return &wine;
}

}  // namespace

bool has_become_wine(const LotView& lot) {
  const Value* stage = lot(lot::stage.name);
  if (stage == nullptr || stage->word != "must") return false;
  const Value* ethanol = lot(lot::ethanol.name);
  const Value* sugar = lot(lot::sugar.name);
  return ethanol != nullptr && ethanol->number >= least_ethanol_of_wine.value() &&
         (sugar == nullptr || sugar->number <= most_sugar_of_must_made_wine.value());
}

LotView as_wine(const LotView& lot) {
  return [lot](std::string_view key) { return key == lot::stage.name ? the_word_wine() : lot(key); };
}

LotView wine_to_come(const LotView& must) {
  return [must](std::string_view key) -> const Value* {
    if (key == lot::stage.name) return the_word_wine();
    const bool gone = std::any_of(fermented_away.begin(), fermented_away.end(),
                                  [&](const Input* fermented) { return fermented->name == key; });
    return gone ? nullptr : must(key);
  };
}

}  // namespace vatwright
