// The cellar book as the page sees it: what it asks, and what is entered. The page itself opens no file.
#pragma once

#include "host/recipe/lot_source.hpp"
#include "host/sheet/html_markup.hpp"

#include <cstdint>
#include <string>
#include <utility>
#include <vector>

namespace vatwright {

class PageBook {
 public:
  struct Lot {
    std::string name;
    std::vector<std::pair<std::string, std::string>> figures;  // a fact and "3.42 ± 0.02"
    std::size_t open = 0;                                      // works
    bool empty = false;                                        // nothing is in it any more
  };
  struct OpenWork {
    std::string id, what;  // "12.2.1"
    bool weighs = false;   // something is added
    std::vector<std::string> cautions{};
  };
  // A sheet that was kept and still stands.
  struct KeptSheet {
    std::int64_t number = 0;
    std::string title, by, signed_by;  // by: empty where nobody said who computed it; signed_by: not signed yet
  };
  // What a person says with each entry.
  struct Said {
    std::string by, at;  // at: empty for now
  };
  // What was entered, and a lot that it has to do with (which may be none).
  struct Entered {
    std::int64_t entry = 0;
    std::string lot;
  };

  // All of them throw BadInput: what is wrong with the book, or with what was asked.
  virtual std::string where() const = 0;
  virtual std::vector<Lot> lots() const = 0;
  virtual bool has(const std::string& lot) const = 0;
  virtual std::vector<OpenWork> open_work(const std::string& lot) const = 0;
  virtual std::vector<KeptSheet> sheets(const std::string& lot) const = 0;
  // Its figures, its course, what it was made of, what was done.
  virtual void show(const std::string& lot, Markup& page) const = 0;
  // Entry `number` in a line; empty when there is none.
  virtual std::string entry_words(std::int64_t number) const = 0;
  // For a recipe that takes a lot from the book.
  virtual const LotSource& source() const = 0;

  // On the disk when they return.
  virtual Entered keep(const std::string& sheet_json, const Said& said) const = 0;
  virtual Entered done(const std::string& id, const std::string& weighed, const std::string& batch,
                       const Said& said) const = 0;
  virtual Entered measure(const std::string& lot, const std::vector<std::string>& readings, const std::string& sample,
                          const Said& said) const = 0;
  virtual Entered sign(std::int64_t sheet, const Said& said) const = 0;

  PageBook(const PageBook&) = delete;
  PageBook& operator=(const PageBook&) = delete;

 protected:
  PageBook() = default;
  ~PageBook() = default;
};

}  // namespace vatwright
