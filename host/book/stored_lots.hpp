// Lots for a recipe, from the book.
#pragma once

#include "host/book/book.hpp"
#include "host/recipe/lot_source.hpp"

#include <filesystem>
#include <utility>

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

}  // namespace vatwright::book
