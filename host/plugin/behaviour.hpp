// What becomes of a fact of a lot when lots are joined, when something is poured in that holds none of it, and when a
// step moves what it hangs on. It stands with the declaration of the fact; host/facts/ joins, thins and forgets by it.
// A fact without a rule becomes unknown, never stale.
#pragma once

#include <cstdint>
#include <span>
#include <string_view>

namespace vatwright {

enum class Joins : std::uint8_t {
  unknown,     // nobody knows it of the whole until it is measured
  by_volume,   // an amount in a volume: it adds up, and stands in what the volume shrinks to
  as_mean,     // the mean by volume, whatever it shrinks to
  by_mass,     // a share of the mass: the heavier lot counts for more
  by_balance,  // the calculation that joins reckons it, by balances of mass and charge
  as_shares,   // names, each with its share of the volume
  same_word,   // a word, where all lots say the same
};

enum class Thins : std::uint8_t {
  unknown,       // nobody knows it until it is measured again
  yes,           // there is less of it in the larger volume
  no,            // it stays
  grows,         // the volume itself
  buffered,      // it stays where little is poured in (`little_poured_in`); then it is unknown
  by_mass,       // there is less of it in the larger mass
  to_mean_mass,  // a density: the masses add up
};

// Whether the law counts it over all that was done to the lot so far. A lot that says nothing counts as one that was
// given none, and whoever holds a limit against it says so.
enum class Account : std::uint8_t { none, counted };

// Read in a laboratory, so that a forecast of it wants measuring; or kept in the books of the lot.
enum class Kept : std::uint8_t { reading, book };

struct Behaviour {
  Joins joins = Joins::unknown;
  Thins thins = Thins::unknown;
  Account account = Account::none;
  Kept kept = Kept::reading;
  // Names of what it hangs on: a step that moves one of them leaves it unknown, where it does not say itself what it
  // will be.
  std::span<const std::string_view> of{};
};

// Up to this share of the volume a buffer holds the pH of must and wine within 0.01: derived from the charge balance,
// and held against it by a test.
inline constexpr double little_poured_in = 0.02;

}  // namespace vatwright
