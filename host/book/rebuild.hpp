// What is made of the entries, made anew.
#pragma once

#include "host/book/index.hpp"

#include <cstdint>
#include <limits>

namespace vatwright::book {

inline constexpr std::int64_t from_the_first = std::numeric_limits<std::int64_t>::min();

// The tables of the newest version, from those of an earlier one; 0: from none.
void move_on(const sql::Database& database, std::int64_t version);

// Of a row "number, kind, at, entered, who, payload, previous, hash".
Entry entry_at(const sql::Statement& row);

// All that follows from entries of that hour, in seconds, or later. Throws InputError as Index::apply does.
void make_anew(const sql::Database& database, Index& index, std::int64_t from);

}  // namespace vatwright::book
