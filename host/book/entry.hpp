// An entry of the book. Entries are all that the book holds; everything else in it is made from them.
#pragma once

#include "host/book/moment.hpp"
#include "units/error.hpp"

#include <nlohmann/json.hpp>

#include <cstdint>
#include <string>
#include <string_view>

namespace vatwright::book {

using Json = nlohmann::ordered_json;

// What entries tell.
inline constexpr std::string_view kept = "kept";            // a worksheet, as planned work
inline constexpr std::string_view done = "done";            // a step of one, with what was really weighed
inline constexpr std::string_view measured = "measured";    // readings of a lot
inline constexpr std::string_view signed_for = "signed";    // by a second person, who had a worksheet computed anew
inline constexpr std::string_view withdrawn = "withdrawn";  // an earlier entry was a slip

// An entry that is to be made.
struct NewEntry {
  std::string kind;
  Moment at;        // when it happened
  std::string who;  // as that person is called; empty: nobody said
  Json payload;     // has "corrects": the number of an entry that this one stands in place of, where it is so
};

struct Entry {
  std::int64_t number = 0;  // from 1, without a gap
  std::string kind, at, entered, who, payload, previous, hash;
};

// The hash of the entry before the first.
inline constexpr std::string_view no_entry = "0000000000000000000000000000000000000000000000000000000000000000";

// SHA-256 of its lines: previous hash, number, kind, at, entered, who, payload. None of them but the last has a line's
// end in it.
std::string hash_of(const Entry& entry);

// One line of an export: {"entry": 1, ..., "payload": {...}}, the payload as it stands in the book.
std::string export_line(const Entry& entry);

// The same read back; what it says is not believed yet. Throws InputError for anything else.
Entry entry_of(std::string_view line);

// The payload, and that the entry can be one: its kind, hours, who. Throws InputError.
Json vetted(const Entry& entry);

// A text of a person for the book: a name, a batch, a reason. Throws InputError for one that is too long, is no UTF-8,
// or has control characters in it; `what` names it.
void check_text(std::string_view what, std::string_view text);

}  // namespace vatwright::book
