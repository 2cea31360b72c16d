#include "host/bench/went_in.hpp"

#include "host/plugin/lot.hpp"

#include <algorithm>

namespace vatwright {
namespace {

void add_once(std::vector<std::string>& all, const std::string& name) {
  if (std::find(all.begin(), all.end(), name) == all.end()) all.push_back(name);
}

// The table, and the column of it that names the substance.
struct BookTable {
  const Input* rows = nullptr;
  const Input* substance = nullptr;
};

BookTable table_of_book(const Calculation& calculation) {
  for (const auto& need : calculation.inputs) {
    if (need.input->kind != Kind::rows || need.input->behaves.kept != Kept::book) continue;
    for (const auto& column : need.input->each)
      if (column.input->kind == Kind::substance) return {need.input, column.input};
  }
  return {};
}

std::vector<std::string> known_of(const LotState& lot) {
  std::vector<std::string> all = lot.went_in;
  if (const auto treated = lot.analysis.find(lot::treated_with.name); treated != lot.analysis.end())
    for (const auto& [name, amount] : treated->second.amounts)
      if (amount > 0) add_once(all, name);
  return all;
}

bool names_it(const Row& row, const Input& column, const std::string& substance) {
  const Value* value = row.find(column);
  return value != nullptr && value->word == substance;
}

}  // namespace

std::optional<ToldStep> told_what_went_in(const BoundStep& step, const std::vector<LotState>& lots,
                                          const Catalogue& catalogue) {
  const BookTable table = table_of_book(*step.calculation);
  if (table.substance == nullptr || !step.lot) return std::nullopt;
  const Value* said_so = said(step, *table.rows);
  std::vector<Row> rows;
  for (const auto& name : known_of(lots[*step.lot])) {
    const bool stated =
        said_so != nullptr && std::any_of(said_so->rows.begin(), said_so->rows.end(),
                                          [&](const Row& row) { return names_it(row, *table.substance, name); });
    const Substance* substance = catalogue.find(name);
    if (stated || substance == nullptr ||
        std::find(table.substance->choices.begin(), table.substance->choices.end(), name) ==
            table.substance->choices.end())
      continue;
    Value value;
    value.word = name;
    value.substance = substance->facts;
    rows.emplace_back().own.push_back({table.substance, std::move(value)});
  }
  if (rows.empty()) return std::nullopt;
  ToldStep told{step, {}};
  for (const auto& row : rows) told.names += (told.names.empty() ? "" : ", ") + row.find(*table.substance)->word;
  auto& all = told.step.given[table.rows].rows;
  all.insert(all.begin(), rows.begin(), rows.end());
  return told;
}

void note_what_went_in(const Outcome& outcome, const BoundStep& step, std::vector<LotState>& lots) {
  std::vector<std::string> added;
  for (const auto& addition : outcome.additions) add_once(added, addition.substance);
  if (step.lot)
    for (const auto& name : added) add_once(lots[*step.lot].went_in, name);
  if (step.makes.empty()) return;
  std::vector<std::string> in_it;
  for (std::size_t i = 0; i < lots.size(); ++i) {
    const bool drawn = std::any_of(outcome.drawn.begin(), outcome.drawn.end(),
                                   [&](const Drawn& one) { return one.lot == lots[i].name; });
    if (drawn || step.lot == i)
      for (const auto& name : lots[i].went_in) add_once(in_it, name);
  }
  for (const auto& name : added) add_once(in_it, name);
  for (const auto made : step.makes) lots[made].went_in = in_it;
}

}  // namespace vatwright
