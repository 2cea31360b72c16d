#include "host/batch/batch.hpp"

#include "host/bench/weigh_out.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <deque>
#include <future>
#include <thread>

namespace vatwright {
namespace {

constexpr std::size_t rows_in_block = 256;

struct Block {
  std::string text;
  BatchCount count;
  Handled handled;
};

CsvRow head_of(CsvReader& reader, const std::string& name) {
  CsvRow head;
  if (!reader.next(head))
    throw BadInput(name + ": the table is empty; expected a head such as 'lot,pH,free SO2 [mg/L]'");
  return head;
}

// The lot that stands for every row; its keys are those of the recipe and of the table.
void make_template(Recipe& recipe, const std::vector<LotColumn>& columns) {
  if (recipe.lots.size() > 1)
    throw BadInput(
        fmt::format("{}: with a table of lots a recipe has one lot, which says what holds for all, or none; it has {}",
                    recipe.document.name(), recipe.lots.size()));
  if (recipe.lots.empty()) recipe.lots.push_back({"lot", {}});
  for (const auto& column : columns)
    if (column.key != nullptr) recipe.lots.front().analysis.try_emplace(column.key);
}

bool carries_uncertainty(const CsvRow& row) {
  return std::any_of(row.cells.begin(), row.cells.end(), [](const std::string& cell) {
    return cell.find("±") != std::string::npos || cell.find("+-") != std::string::npos ||
           cell.find("+/-") != std::string::npos;
  });
}

}  // namespace

Batch::Batch(const Bench& bench, Recipe& recipe, const std::filesystem::path& table, const Draws& draws)
    : bench_(bench),
      apart_(bench.apart()),
      recipe_(recipe),
      draws_(draws),
      reader_(table),
      columns_(read_columns(table.string(), head_of(reader_, table.string()))),
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
  first_rows_.resize(rows_in_block);
  std::size_t n = 0;
  while (n < rows_in_block && reader_.next(first_rows_[n])) ++n;
  first_rows_.resize(n);
  const auto& lot = ready_.lots.front().analysis;
  uncertain_ = ready_.typical != nullptr || std::any_of(first_rows_.begin(), first_rows_.end(), carries_uncertainty) ||
               std::any_of(lot.begin(), lot.end(), [](const auto& entry) { return entry.second.uncertainty > 0; });
}

RowSheet Batch::compute(const CsvRow& row, Prepared& ready) const {
  RowSheet out;
  out.line = row.line;
  try {
    RowLot lot = read_row(columns_, row, recipe_.acid_basis);
    out.lot = lot.name;
    auto& state = ready.lots.front();
    state = ready_.lots.front();
    state.name = lot.name;
    if (ready.typical != nullptr)
      for (auto& [key, value] : lot.values) ready.typical->tell(*key, value);
    for (auto& [key, value] : lot.values) state.analysis.insert_or_assign(std::string(key->name), std::move(value));
    bench_.run_steps(ready, draws_, out.sheet);
    out.sheet.weigh_out = weigh_out(out.sheet.steps, apart_);
  } catch (const InputError& error) {
    out.error = error.what();
    if (!error.hint().empty()) out.error += "; " + error.hint();
  } catch (const BadInput& error) {
    // The place in the recipe says nothing of the row; what is amiss stands in its first line.
    out.error = error.what();
  } catch (const PluginError& error) {
    out.error = error.what();
  }
  return out;
}

BatchCount Batch::run(const RowWriter& writer, const std::function<void(const std::string&)>& write,
                      const std::function<void(double, const BatchCount&)>& progress) {
  const auto work = [this, &writer](std::vector<CsvRow> rows) {
    Block block;
    Prepared ready = ready_;
    for (const auto& row : rows) {
      const RowSheet sheet = compute(row, ready);
      ++block.count.lots;
      if (sheet.error.empty()) {
        block.handled.join(sheet.sheet);
        if (!sheet.sheet.holds()) ++block.count.failing;
      } else {
        ++block.count.errors;
      }
      block.text += writer.row(sheet);
    }
    return block;
  };
  const std::size_t most_waiting = std::size_t{2} * std::max(1U, std::thread::hardware_concurrency());
  std::deque<std::future<Block>> waiting;
  BatchCount all;
  Handled handled;
  write(writer.head());
  const auto take = [&] {
    const Block block = waiting.front().get();
    waiting.pop_front();
    all.lots += block.count.lots;
    all.failing += block.count.failing;
    all.errors += block.count.errors;
    handled.join(block.handled);
    write(block.text);
    progress(reader_.progress(), all);
  };
  for (auto rows = std::move(first_rows_); !rows.empty();) {
    if (waiting.size() >= most_waiting) take();
    waiting.push_back(std::async(std::launch::async, work, std::move(rows)));
    rows = std::vector<CsvRow>(rows_in_block);
    std::size_t n = 0;
    while (n < rows_in_block && reader_.next(rows[n])) ++n;
    rows.resize(n);
  }
  while (!waiting.empty()) take();
  write(writer.foot(all, handled));
  return all;
}

}  // namespace vatwright
