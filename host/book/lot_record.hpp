// What the book had, as a sheet carries it: the record of a lot and of lessons, and lots for a recipe from those.
#pragma once

#include "host/book/lot_state.hpp"
#include "host/recipe/lot_source.hpp"

#include <map>
#include <string>

namespace vatwright::book {

// The record of a lot: {"at", "entry", "hash", "facts", "went in"}.
StoredLot of_record(const std::string& name, const Json& record);

// The record of lessons: {"at", "entry", "hash", "forecasts": [{"calculation", "fact", "unit", "cases", "bias",
// "off"}]}.
Lessons of_lessons(const Json& record);

// From a sheet that carries what the book had.
class SheetLots final : public LotSource {
 public:
  explicit SheetLots(const Json& sheet);
  StoredLot find(const std::string& lot) const override;
  Lessons lessons() const override;

 private:
  std::map<std::string, Json> records_;
  Json lessons_;
};

}  // namespace vatwright::book
