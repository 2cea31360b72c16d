// The analysis of a blend: what mix writes into the new lot, and what design holds its bounds against.
#pragma once

#include "host/plugin/plugin.hpp"
#include "plugins/chemistry/mixing.hpp"

#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace vatwright::blend {

// A lot that goes in. Of a prediction without volumes, the volumes are the shares of a litre.
struct Portion {
  const Row* lot;
  Volume volume;  // above zero, at 20 °C
};

// What the balance of mass and charge needs to know of a lot. Without ethanol its acids are taken to
// stand in 12 % vol, in must in none.
chemistry::Part part_of(const Row& lot, Volume volume);

// pH to which the lot's acidity was titrated, as the word of the key: 7.0 where it does not say.
std::string_view endpoint_of(const Row& lot);
// "the lots were titrated to different end points: T7 to 7.0, T8 to 8.2".
std::string different_endpoints(std::span<const Portion> portions);

// Something that the blend does not have, and why: "sugar", "not known of T8".
struct Unknown {
  std::string what, why;
};

struct Prediction {
  NewLot lot;                    // every key that is known of all lots, with the volume
  chemistry::Blend mixed;        // pH, acidity, ethanol, contraction
  std::vector<Unknown> unknown;  // of what some lots have and some lack, or what does not add up
};

// Throws InputError, which names the lot, for an analysis that cannot be true together.
// `vetted`: drawn around readings that passed (chemistry::Measured). `leaning`: the unmeasured acids of all lots, -1 to
// 1 (lab::unmeasured_acids).
Prediction predict(std::string_view name, std::span<const Portion> portions, bool vetted = false, double leaning = 0);

}  // namespace vatwright::blend
