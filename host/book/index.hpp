// What is made of the entries, so that a lot, the open work or the stock is found without reading them all. It can be
// thrown away and made again at any time, and `check` does so to compare.
#pragma once

#include "host/book/lot_state.hpp"
#include "host/book/sqlite.hpp"

#include <map>
#include <optional>
#include <string>

namespace vatwright::book {

class Index {
 public:
  explicit Index(const sql::Database& database);

  // The next entry by the hour at which it happened, and by its number. Throws InputError where its payload is not what
  // its kind needs.
  void apply(const Entry& entry, std::int64_t moment, const Json& payload);

  // That an entry has to do with its lots; it does so when it was a slip, too.
  void touch(const Entry& entry, std::int64_t moment, const Json& payload);

  // The lot as the entries so far leave it; nothing when there is none.
  std::optional<LotState> find(const std::string& lot);

 private:
  void apply_kept(const Entry& entry, const Json& payload);
  void apply_measured(const Entry& entry, const Json& payload);
  void apply_done(const Entry& entry, const Json& payload);
  void apply_signed(const Entry& entry, const Json& payload);

  void put(const Entry& entry, const LotState& lot);
  void read(const Entry& entry, const std::string& lot, const Json& readings, const Json& sample);

  std::int64_t moment_ = 0;
  sql::Statement find_, put_state_, put_lot_, touch_, put_work_, do_work_, put_weighed_, put_foretold_, put_signature_;
};

}  // namespace vatwright::book
