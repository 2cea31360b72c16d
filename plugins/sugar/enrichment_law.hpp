// What the rule sets say of a must that is enriched, with what was done to it before.
#pragma once

#include "host/facts/account.hpp"
#include "plugins/sugar/bounds.hpp"
#include "plugins/sugar/enrichment.hpp"

namespace vatwright::sugar::enrichment {

// What the law counts: all enrichments of a must together, and all tirage liqueur of a cuvée; and what the must then
// is.
struct Enriched {
  Strength gained, by_tirage;
  Fraction volume;
  Strength total{};
  MassFraction dissolved{};

  bool any() const { return gained > Strength{} || volume > Fraction{}; }
};

// By earlier steps, or before it came here.
Enriched so_far(const Inputs& in);

Bounds<Enriched> bounds_of(const Inputs& in, bool concentrated);

// What the limits rest on, and that there is none.
void say_law(const Inputs& in, const Bounds<Enriched>& law, bool concentrated, Outcome& out);
void say_silent(const facts::Silence& silence, Outcome& out);

}  // namespace vatwright::sugar::enrichment
