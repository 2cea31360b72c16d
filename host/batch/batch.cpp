#include "host/batch/batch.hpp"

#include "host/batch/held_back.hpp"
#include "host/bench/readings.hpp"
#include "host/bench/weigh_out.hpp"
#include "host/recipe/lot_name.hpp"
#include "host/recipe/together.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <deque>
#include <fstream>
#include <functional>
#include <future>
#include <iterator>
#include <optional>
#include <sstream>
#include <thread>

namespace vatwright {
namespace {

constexpr std::size_t rows_in_block = 256;

struct Block {
  std::string text;
  BatchVerdict verdict;
};

void append(std::vector<RowName>& all, std::vector<RowName>&& more) {
  all.insert(all.end(), std::make_move_iterator(more.begin()), std::make_move_iterator(more.end()));
}

// What a row does to the verdict. The names of the rows that are amiss are kept where somebody reads them.
void judge(const RowSheet& row, bool with_names, BatchVerdict& verdict) {
  ++verdict.count.lots;
  if (row.unusual) {
    ++verdict.count.unusual;
    if (with_names) verdict.unusual.push_back({row.line, row.lot});
  }
  if (!row.error.empty()) {
    ++verdict.count.errors;
    if (with_names) verdict.refused.push_back({row.line, row.lot});
    return;
  }
  verdict.handled.join(row.sheet);
  if (!row.sheet.holds()) {
    ++verdict.count.failing;
    if (with_names) verdict.failing.push_back({row.line, row.lot});
  } else if (std::all_of(row.sheet.steps.begin(), row.sheet.steps.end(),
                         [](const StepSheet& step) { return step.outcome.checks.empty(); })) {
    ++verdict.count.unchecked;
  }
}

// A line of commas, as a spreadsheet leaves it below its last row.
bool blank(const CsvRow& row) {
  return std::all_of(row.cells.begin(), row.cells.end(),
                     [](const std::string& cell) { return cell.find_first_not_of(' ') == std::string::npos; });
}

bool next_row(CsvReader& reader, CsvRow& row) {
  while (reader.next(row))
    if (!blank(row)) return true;
  return false;
}

CsvRow head_of(CsvReader& reader, const std::string& name) {
  CsvRow head;
  if (!next_row(reader, head))
    throw BadInput(name +
                   ": the table is empty, expected a head and a row for each lot\n  such as 'lot,pH,free SO2 [mg/L]', "
                   "and below it 'T7,3.42,14'");
  return head;
}

// The lot that stands for every row; its keys are those of the recipe and of the table.
void make_template(Recipe& recipe, const std::vector<LotColumn>& columns) {
  if (recipe.lots.size() > 1)
    throw BadInput(fmt::format(
        "{}: with a table of lots a recipe has one lot, which says what holds for all, or none; it has {}\n  leave "
        "out its lots that are in the table",
        recipe.document.name(), recipe.lots.size()));
  if (recipe.lots.empty()) recipe.lots.push_back({"each row", {}});
  // What the book has of a row's lot is known when the row is read.
  if (!recipe.lots.front().as_of.empty()) recipe.lots.front().all_unread = true;
  for (const auto& column : columns)
    if (column.key != nullptr) recipe.lots.front().analysis.try_emplace(column.key);
}

// Whether there is a ± anywhere in the table: the head is written before the last row is read, and has to leave room
// for it. What cannot be read twice, such as a pipe, may have one.
bool carries_uncertainty(const std::filesystem::path& table) {
  if (!std::filesystem::is_regular_file(table)) return true;
  constexpr std::string_view signs[] = {"±", "+-", "+/-"};
  constexpr std::size_t block = 1U << 16U, longest = 3;
  std::ifstream file(table, std::ios::binary);
  std::string text;  // a block, after the end of the one before
  while (file) {
    text.erase(0, text.size() - std::min(text.size(), longest - 1));
    const std::size_t kept = text.size();
    text.resize(kept + block);
    file.read(text.data() + kept, block);
    text.resize(kept + static_cast<std::size_t>(file.gcount()));
    if (std::any_of(std::begin(signs), std::end(signs),
                    [&](std::string_view sign) { return text.find(sign) != std::string::npos; }))
      return true;
  }
  return false;
}

// The step of the recipe, what is amiss, and the hint; the line of the recipe that BadInput shows
// with a caret under it says nothing of the row.
std::string on_one_line(const std::string& message) {
  std::vector<std::string> lines;
  std::istringstream in(message);
  for (std::string line; std::getline(in, line);) lines.push_back(line);
  const bool hint = lines.size() == 2 || lines.size() == 4;
  return lines.front() + (hint ? "; " + lines.back().substr(lines.back().find_first_not_of(' ')) : "");
}

}  // namespace

StoredLot EachFromBook::find(const std::string& /*lot*/) const {
  StoredLot each;
  each.as_of = "each as the book has it";
  return each;
}

Lessons EachFromBook::lessons() const {
  throw InputError("a table of lots takes no ± from the book", "leave 'uncertainty: from book' out");
}

Batch::Batch(const Bench& bench, Recipe& recipe, const LotTable& table, const Draws& draws)
    : bench_(bench),
      apart_(bench.apart()),
      recipe_(recipe),
      draws_{draws.count, draws.seed, false},
      reader_(table.text ? CsvReader(table.file.string(), *table.text, ',') : CsvReader(table.file)),
      columns_(read_columns(table.file.string(), head_of(reader_, table.file.string()), recipe.acid_basis, table.carry,
                            table.units_in_cells)),
      source_(recipe.lots.empty() || recipe.lots.front().as_of.empty() ? nullptr : table.source),
      ready_([&] {
        std::vector<const Input*> own;  // what the recipe itself says of the lot
        if (recipe.lots.size() == 1)
          for (const auto& [key, value] : recipe.lots.front().analysis) own.push_back(key);
        make_template(recipe, columns_);
        Prepared ready = bench.prepare(recipe);
        // A cell that is empty leaves the lot as the recipe has it, which may be not at all.
        for (const auto& column : columns_)
          if (column.key != nullptr && std::find(own.begin(), own.end(), column.key) == own.end())
            ready.lots.front().analysis.erase(std::string(column.key->name));
        return ready;
      }()) {
  first_rows_ = next_rows();
  if (first_rows_.empty())
    throw BadInput(table.file.string() + ": the table has a head and no lots\n  write a row for each lot below it");
  uncertain_ = ready_.typical != nullptr || has_readings(ready_) || table.text || carries_uncertainty(table.file);
}

std::vector<std::string> Batch::carried_heads() const {
  std::vector<std::string> heads;
  for (const auto& column : columns_)
    if (column.carried) heads.push_back(column.head);
  return heads;
}

std::vector<RowRead> Batch::next_rows() {
  std::vector<RowRead> rows;
  rows.reserve(rows_in_block);
  for (CsvRow row; rows.size() < rows_in_block && next_row(reader_, row);) {
    std::size_t earlier = 0;
    if (const std::string name = name_in(columns_, row); !name.empty()) {
      const auto [at, is_new] =
          named_.emplace(std::hash<std::string>()(likeness(name)), static_cast<std::uint32_t>(row.line));
      if (!is_new) earlier = at->second;
    }
    rows.push_back({std::move(row), earlier});
  }
  return rows;
}

RowSheet Batch::compute(const RowRead& read, Prepared& ready) const {
  const CsvRow& row = read.row;
  RowSheet out;
  out.line = row.line;
  out.lot = name_in(columns_, row);
  out.carried = carried_in(columns_, row);
  try {
    if (read.earlier != 0)
      throw InputError(
          fmt::format("row {}: lot '{}' is in row {} already", row.line, out.lot, read.earlier),
          "a lot is dosed once: keep one of the two rows, or give each its own name: capitals, spaces and letters "
          "of another alphabet make no other name");
    RowLot lot = read_row(columns_, row, recipe_.acid_basis);
    auto& state = ready.lots.front();
    state = ready_.lots.front();
    state.name = lot.name;
    if (source_ != nullptr) take_from_book(lot, state);
    if (ready.typical != nullptr)
      for (auto& [key, value] : lot.values) ready.typical->tell(*key, value);
    for (auto& [key, value] : lot.values) state.analysis.insert_or_assign(std::string(key->name), std::move(value));
    const auto of = [&](const Input& key) {
      const auto at = state.analysis.find(key.name);
      return at == state.analysis.end() ? nullptr : &at->second;
    };
    check_together(of(lot::free_so2), of(lot::total_so2));
    bench_.run_steps(ready, draws_, out.sheet);
    hold_back_unusual(out);
    out.sheet.weigh_out = weigh_out(out.sheet.steps, apart_);
  } catch (const InputError& error) {
    out.error = error.what();
    if (!error.hint().empty()) out.error += "; " + error.hint();
  } catch (const BadInput& error) {
    out.error = on_one_line(error.what());
  } catch (const PluginError& error) {
    out.error = error.what();
  }
  return out;
}

// What the recipe says of each lot, and what the row says of its own, stand in place of what the book has.
void Batch::take_from_book(const RowLot& row, LotState& lot) const {
  StoredLot stored = source_->find(row.name);
  const auto is_said = [&](const Input* key) {
    return lot.analysis.contains(key->name) ||
           std::any_of(row.values.begin(), row.values.end(), [&](const auto& one) { return one.first == key; });
  };
  std::erase_if(stored.foretold, is_said);
  for (auto& [key, value] : stored.analysis) {
    if (!is_said(key))
      lot.analysis.emplace(key->name, std::move(value));
    else if (key->behaves.account != Account::none && value.silent.empty())
      throw InputError(fmt::format("'{}' of lot '{}' stands in the book", key->name, row.name),
                       "leave it out; if the book is wrong, correct it: 'vatwright book history " + row.name + "'");
  }
  lot.foretold = std::move(stored.foretold);
  lot.went_in = std::move(stored.went_in);
  lot.as_of = std::move(stored.as_of);
}

// Nobody reads the notes of a row: a reading that may be a slip orders nothing until somebody has said that it is none.
void Batch::hold_back_unusual(RowSheet& row) const {
  for (const auto& step : row.sheet.steps) {
    if (step.unusual.empty()) continue;
    row.unusual = true;
    if (recipe_.unusual_accepted || step.outcome.additions.empty()) continue;
    throw InputError(fmt::format("held back: {}", fmt::join(step.unusual, "; ")),
                     "it decides what to add; where every such reading is true, the recipe says 'unusual readings: "
                     "accepted'");
  }
}

BatchCount Batch::run(const RowWriter& writer, const std::function<void(const std::string&)>& write,
                      const std::function<void(double, const BatchCount&)>& progress) {
  const bool verdict_leads = writer.verdict_leads();
  const auto work = [this, &writer, verdict_leads](const std::vector<RowRead>& rows) {
    Block block;
    Prepared ready = ready_;
    for (const auto& row : rows) {
      const RowSheet sheet = compute(row, ready);
      judge(sheet, verdict_leads, block.verdict);
      block.text += writer.row(sheet);
    }
    return block;
  };
  const unsigned cores = std::max(1U, std::thread::hardware_concurrency());
  // On one core a second thread wins nothing, and a browser may have none.
  const auto how = cores > 1 ? std::launch::async : std::launch::deferred;
  const std::size_t most_waiting = std::size_t{2} * cores;
  std::deque<std::future<Block>> waiting;
  BatchVerdict all;
  std::optional<HeldBack> held;
  if (verdict_leads)
    held.emplace();
  else
    write(writer.head(all));
  const auto take = [&] {
    Block block = waiting.front().get();
    waiting.pop_front();
    all.join(std::move(block.verdict));
    held ? held->add(block.text) : write(block.text);
    progress(reader_.progress(), all.count);
  };
  for (auto rows = std::move(first_rows_); !rows.empty();) {
    if (waiting.size() >= most_waiting) take();
    waiting.push_back(std::async(how, work, std::move(rows)));
    rows = next_rows();
  }
  while (!waiting.empty()) take();
  if (held) {
    write(writer.head(all));
    held->give(write);
  }
  write(writer.foot(all));
  return all.count;
}

void BatchVerdict::join(BatchVerdict&& later) {
  count.lots += later.count.lots;
  count.failing += later.count.failing;
  count.errors += later.count.errors;
  count.unchecked += later.count.unchecked;
  count.unusual += later.count.unusual;
  append(failing, std::move(later.failing));
  append(refused, std::move(later.refused));
  append(unusual, std::move(later.unusual));
  handled.join(later.handled);
}

}  // namespace vatwright
