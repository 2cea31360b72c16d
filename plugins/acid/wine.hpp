// The lot as the acid-base engine sees it: inferred from what was measured, and read off again.
#pragma once

#include "plugins/acid/keys.hpp"
#include "plugins/chemistry/lab_analysis.hpp"
#include "plugins/lab/unmeasured.hpp"

#include <array>
#include <optional>

namespace vatwright::acid {

// What the calculations that read a wine are uncertain by.
inline constexpr std::array<const ModelInfo*, 1> wine_models{&lab::unmeasured_acids};

struct Wine {
  chemistry::Medium medium;
  Ph endpoint;  // of every titratable acidity here
  Ph ph;
  Acidity titratable;
  chemistry::Composition composition;
};

struct State {
  Ph ph;
  Acidity titratable;
};

// The same wine with its unmeasured acids at one of their two ends, 1 or -1 (chemistry::end_of_unmeasured()); nothing
// where the readings leave none of them.
std::optional<Wine> at_end(const Inputs& in, const Wine& wine, double leaning);

// Infers the composition from whatever of `wine_inputs` is given; notes what was taken for granted, and
// which constants. Throws InputError for measurements that cannot be together.
Wine read_wine(const Inputs& in, Outcome& out);

Acidity titratable(const Wine& wine, const chemistry::Composition& after);

// What a laboratory would find of the treated wine.
State state_of(const Wine& wine, const chemistry::Composition& after);

// As results, with the buffer capacity that it then has.
void write_state(const Wine& wine, const chemistry::Composition& after, const State& state, Outcome& out);
// As the lot's pH and titratable acidity. Throws InputError when no wine has such a pH or acidity.
void change_state(const State& state, Outcome& out);

// A lot value that is known rises by so much (or falls, not below zero).
void shift(const Inputs& in, const Key<MassConcentration>& key, MassConcentration by, Outcome& out);

}  // namespace vatwright::acid
