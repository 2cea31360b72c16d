// The cellar book for the page: each question opens the book anew, so that what others entered is seen.
#pragma once

#include "host/bench/bench.hpp"
#include "host/book/book.hpp"
#include "host/book/stored_lots.hpp"
#include "host/cli/book_commands.hpp"
#include "host/page/page_book.hpp"

#include <filesystem>
#include <memory>

namespace vatwright {

class BookForPage final : public PageBook {
 public:
  // `bench` is asked where a sheet is computed anew.
  BookForPage(std::filesystem::path file, Bench bench);

  std::string where() const override { return file_.string(); }
  std::vector<Lot> lots() const override;
  bool has(const std::string& lot) const override;
  std::vector<OpenWork> open_work(const std::string& lot) const override;
  std::vector<KeptSheet> sheets(const std::string& lot) const override;
  void show(const std::string& lot, Markup& page) const override;
  std::string entry_words(std::int64_t number) const override;
  const LotSource& source() const override { return source_; }

  Entered keep(const std::string& sheet_json, const Said& said) const override;
  Entered done(const std::string& id, const std::string& weighed, const std::string& batch,
               const Said& said) const override;
  Entered measure(const std::string& lot, const std::vector<std::string>& readings, const std::string& sample,
                  const Said& said) const override;
  Entered sign(std::int64_t sheet, const Said& said) const override;

 private:
  // As of the moment that it is asked.
  class Today final : public LotSource {
   public:
    explicit Today(std::filesystem::path file) : file_(std::move(file)) {}
    StoredLot find(const std::string& lot) const override { return book::BookLots(file_, book::now()).find(lot); }
    Lessons lessons() const override { return book::BookLots(file_, book::now()).lessons(); }

   private:
    std::filesystem::path file_;
  };
  bool begun() const;

  std::filesystem::path file_;
  Bench bench_;
  Today source_;
};

// nullptr: nobody says where the book is, and there is none on the page.
std::unique_ptr<const BookForPage> book_for_page(const BookOptions& options, const Bench& bench);

}  // namespace vatwright
