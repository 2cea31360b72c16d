// Lots for a recipe: from the book, or from a sheet that carries what the book had.
#pragma once

#include "host/book/book.hpp"
#include "host/recipe/lot_source.hpp"

#include <map>

namespace vatwright::book {

class BookLots final : public LotSource {
 public:
  // As of that hour.
  BookLots(std::filesystem::path file, Moment at) : file_(std::move(file)), at_(std::move(at)) {}
  StoredLot find(const std::string& lot) const override;
  Lessons lessons() const override;

 private:
  std::filesystem::path file_;
  Moment at_;
};

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
