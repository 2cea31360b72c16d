// What the book says of its lots, to be read: as text and as JSON.
#pragma once

#include "host/book/book.hpp"
#include "host/sheet/writers.hpp"

#include <optional>
#include <string>
#include <vector>

namespace vatwright::book {

// Work that is planned and not done.
struct OpenWork {
  std::string id;  // "12.2.1"
  std::string what;
  std::vector<std::string> cautions;  // of what is added
};
std::vector<OpenWork> open_work(const Book& book, const std::string& lot);

// Sheets of a lot that stand.
struct SheetKept {
  std::int64_t number = 0;
  std::string title, by, signed_by;  // signed_by: of the first who found that it holds; empty: nobody yet
};
std::vector<SheetKept> kept_sheets(const Book& book, const std::string& lot);

// What a lot was made of: its share of the whole, and so on back.
struct Ancestor {
  std::string lot;
  double share;  // of the lot that was asked for
  int depth;     // 1: it was drawn from for that lot itself
};
std::vector<Ancestor> ancestors(const Book& book, const LotState& lot);

// An entry that has to do with a lot, in a line.
struct Event {
  Entry entry;
  std::string what;
  std::optional<std::int64_t> corrected_by;
};
std::vector<Event> history(const Book& book, const std::string& lot);

// In a line: what an entry says, of `lot` where it says something of several.
std::string event_words(const Entry& entry, const std::string& lot);

using Hour = std::optional<std::int64_t>;  // in seconds; nothing: as of now

// A lot among all lots: its figures under the heads of the list, those that are a forecast with a '*' behind them.
struct LotLine {
  std::string lot;
  std::vector<std::pair<std::string, std::string>> figures;  // "pH" and "3.42 ± 0.02"; empty where none is known
  std::vector<std::string> open;                             // work that is planned: "12.2.1"
  bool empty = false;                                        // nothing is in it any more
};
std::vector<LotLine> lot_lines(const Book& book, const Hour& until);

Json lots_json(const Book& book, const Hour& until);
std::string lots_text(const Book& book, const Hour& until, const TextStyle& style);

Json lot_json(const Book& book, const LotState& lot);
std::string lot_text(const Book& book, const LotState& lot, const std::string& as_of, const TextStyle& style);

Json history_json(const Book& book, const std::string& lot);
std::string history_text(const Book& book, const std::string& lot, const TextStyle& style);

// "3.42 ± 0.02", "acid added 1.2 g/L as tartaric acid".
std::string fact_words(const LotState& lot, const Input& fact);
// "read 2026-10-03 09:30 by Anna, sample A12"; "forecast of acid.addition, 2026-10-04 08:00 (entry 15)".
std::string origin_words(const Json& fact);

}  // namespace vatwright::book
