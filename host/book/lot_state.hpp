// A lot as the book has it at some hour: its facts, each with where it comes from, and what it was made of.
#pragma once

#include "host/book/entry.hpp"
#include "host/plugin/readings.hpp"

#include <optional>
#include <string>

namespace vatwright::book {

// Where a fact in the book comes from: "reading", or what a step that was done left ("forecast", "reckoned", "booked").
inline constexpr std::string_view from_reading = "reading", from_forecast = "forecast", from_booked = "booked";

struct LotState {
  std::string name;
  std::int64_t born = 0;        // the entry that it began with
  Json made;                    // {"entry": 12, "by": "blend.mix", "of": {"T7": 0.6, "T8": 0.4}}; null: of nothing here
  Json facts = Json::object();  // {"pH": {"value": 3.42, "unit": "pH", "from": "reading", "at": ..., "entry": 3}}

  std::optional<double> litres() const;
  bool is_empty() const;  // of wine: what comes into it next has nothing of what was in it
  std::optional<Value> value(const Input& fact) const;
  // With where it comes from; `about` is taken over as it is.
  void set(const Input& fact, const Value& value, const Json& about);

  std::string text() const;  // as it is stored
  static LotState of(const std::string& lot, const std::string& text);
};

// All facts that a lot of a recipe may have, of those that this program knows.
Analysis analysis_of(const LotState& lot);

}  // namespace vatwright::book
