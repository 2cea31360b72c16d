// The register: what was done, in the form that a rule set asks for.
#pragma once

#include "host/book/book.hpp"
#include "host/sheet/writers.hpp"

#include <optional>
#include <string>
#include <vector>

namespace vatwright::book {

struct RegisterRow {
  std::int64_t entry = 0;
  std::string at, lot, record, source, operation, substance, strength, amount, batch, volumes, figures, by, signed_by;
};

struct Register {
  std::string title, time, left_out;  // what the set's register is, until when entries are due, what it leaves out
  std::vector<RegisterRow> rows;      // by the hour
};

// `table` is registers.yaml. `from` and `to` are hours in seconds. Throws BadInput for a set that has no register.
Register make_register(const Book& book, const std::filesystem::path& table, const std::string& rules,
                       std::optional<std::int64_t> from, std::optional<std::int64_t> to);

std::string register_text(const Register& all, const TextStyle& style);
std::string register_csv(const Register& all);
Json register_json(const Register& all);
// A page a month.
std::string register_html(const Register& all, const std::string& book);

}  // namespace vatwright::book
