#include "host/intake/gauge.hpp"

#include "host/intake/shown.hpp"
#include "host/recipe/quantity.hpp"
#include "host/yaml/nodes.hpp"
#include "units/nearest.hpp"
#include "units/parse.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace vatwright::intake {
namespace {

// What judges the readings of a result that stands in a column as it is.
constexpr std::string_view of_column = "control.report", of_column_rows = "readings", of_column_value = "value";
constexpr std::string_view lot_name = "sample";

// As many as were written: "0.9921" has four.
int decimals_in(const std::string& text) {
  const auto point = text.find('.');
  if (point == std::string::npos) return 0;
  const auto end = text.find_first_not_of("0123456789", point + 1);
  return static_cast<int>((end == std::string::npos ? text.size() : end) - point - 1);
}

std::string same_for_all(const Node* with) {
  std::string out;
  if (with == nullptr) return out;
  for (const auto& entry : with->entries)
    if (entry.value.kind == Node::Kind::text) out += (out.empty() ? "" : ", ") + entry.key + " " + entry.value.text;
  return out;
}

}  // namespace

Gauge::Gauge(const Bench& bench, const Mapping& mapping, const MappedResult& result, const RawTable& table,
             const SampleRows& first)
    : bench_(bench), mapping_(mapping), result_(result), table_(table) {
  for (const auto& mapped : result.inputs) {
    Where where{&mapped, {}};
    for (const auto& [head, mark] : mapped.heads) where.columns.push_back(table.column(head, mark));
    where_.push_back(std::move(where));
  }
  column_.name = result.name;
  if (result.calculation.empty()) {
    fact_ = find_lot_key(result.name);
    column_.unit = result.inputs.front().unit;
    if (fact_ != nullptr && column_.unit.empty()) column_.unit = fact_->unit;
    if (fact_ != nullptr && parse_unit(column_.unit).dimension != fact_->dimension)
      mapping.document.fail(result.mark, in_quotes(column_.unit) + " is no unit of " + result.name,
                            "write such as 'unit: " + std::string(fact_->unit) + "'");
    column_.how = "as read";
    column_.decimals = 0;
  } else {
    const auto same = same_for_all(result.with);
    column_.how = result.calculation + (same.empty() ? "" : ": " + same);
  }
  make_ready(bench, first);
}

// A row that is amiss is told of with its sample; the calculation is made ready by the first that is not.
void Gauge::make_ready(const Bench& bench, const SampleRows& first) {
  const auto repeats = repeats_in(first);
  for (std::size_t i = 0; i < repeats.size() && !ready_; ++i) {
    try {
      recipe_ = std::make_unique<Recipe>(recipe_of(repeats[i]));
      ready_ = std::make_unique<Prepared>(bench.prepare(*recipe_));
    } catch (const BadInput&) {
      if (i + 1 == repeats.size()) throw;
    }
  }
  if (ready_) find_inputs();
}

void Gauge::find_inputs() {
  const bool plain = result_.calculation.empty();
  const std::string_view repeats = plain ? of_column_rows : std::string_view(result_.repeats);
  const auto fit = [&](std::span<const Need> needs, bool repeated) {
    for (const auto& need : needs)
      for (auto& where : where_)
        if (where.mapped->repeated == repeated && need.input->name == (plain ? of_column_value : where.mapped->input))
          where.input = need.input;
  };
  const auto inputs = ready_->steps.front().calculation->inputs;
  fit(inputs, false);
  for (const auto& need : inputs)
    if (need.input->name == repeats) {
      rows_input_ = need.input;
      fit(need.input->each, true);
    }
  // An empty cell in the first row would hide a misspelt name.
  for (const auto& where : where_)
    if (where.input == nullptr)
      mapping_.document.fail(where.mapped->mark,
                             result_.calculation + " has no input " + in_quotes(where.mapped->input),
                             "'vatwright show " + result_.calculation +
                                 "' lists them; what is read again and again stands "
                                 "under 'repeats'");
}

std::string Gauge::text_of(const Where& where, const Repeat& repeat) const {
  const std::size_t which = std::min(repeat.which, where.columns.size() - 1);
  std::string text = table_.number_text(*repeat.row, where.columns[which]);
  if (text.empty()) return text;
  if (!where.mapped->doubt.empty()) text += " ± " + where.mapped->doubt;
  if (!where.mapped->unit.empty() && !result_.calculation.empty()) text += " " + where.mapped->unit;
  return text;
}

Node Gauge::step_of(const Repeat& first) const {
  const Mark mark = result_.mark;
  std::vector<Entry> inputs, row;
  if (result_.with != nullptr) inputs = result_.with->entries;
  const bool plain = result_.calculation.empty();
  for (const auto& where : where_) {
    const std::string text = text_of(where, first);
    if (text.empty()) continue;
    const auto& name = plain ? std::string(of_column_value) : where.mapped->input;
    auto& into = where.mapped->repeated ? row : inputs;
    into.push_back({name, where.mapped->mark, text_node_of(text, where.mapped->mark)});
  }
  if (plain && !result_.repeatability.empty())
    inputs.push_back({"repeatability", mark, text_node_of(result_.repeatability, mark)});
  const std::string repeats = plain ? std::string(of_column_rows) : result_.repeats;
  if (!repeats.empty()) inputs.push_back({repeats, mark, list_node_of({map_node_of(std::move(row), mark)}, mark)});
  std::vector<Entry> step;
  step.push_back({plain ? std::string(of_column) : result_.calculation, mark, map_node_of(std::move(inputs), mark)});
  return map_node_of(std::move(step), mark);
}

Recipe Gauge::recipe_of(const Repeat& first) const {
  const Mark mark = result_.mark;
  std::vector<Entry> lots, root;
  lots.push_back({std::string(lot_name), mark, map_node_of({}, mark)});
  root.push_back({"recipe", mark, text_node_of(result_.name, mark)});
  if (mapping_.acid_basis != nullptr)
    root.push_back({"acid basis", mark, text_node_of(std::string(mapping_.acid_basis->name), mark)});
  root.push_back({"lots", mark, map_node_of(std::move(lots), mark)});
  root.push_back({"steps", mark, list_node_of({step_of(first)}, mark)});
  return read_recipe(
      Document::of(mapping_.document.name(), mapping_.document.text(), map_node_of(std::move(root), mark)));
}

// Each row, and in it each column that repeats the others, as far as something is written there.
std::vector<Gauge::Repeat> Gauge::repeats_in(const SampleRows& rows) const {
  std::size_t columns = 1;
  for (const auto& where : where_) columns = std::max(columns, where.columns.size());
  // What is read once a sample, beside what is read again, makes no reading of its own.
  const bool by_rows =
      std::any_of(where_.begin(), where_.end(), [](const Where& where) { return where.mapped->repeated; });
  std::vector<Repeat> found;
  for (const auto* row : rows)
    for (std::size_t which = 0; which < columns; ++which)
      if (std::any_of(where_.begin(), where_.end(), [&](const Where& where) {
            return where.mapped->repeated == by_rows && which < where.columns.size() &&
                   !table_.number_text(*row, where.columns[which]).empty();
          }))
        found.push_back({row, which});
  return found;
}

Value Gauge::value_of(const Where& where, const Repeat& repeat) const {
  const std::string text = text_of(where, repeat);
  if (text.empty())
    throw InputError("row " + std::to_string(repeat.row->line) + ": no " + where.mapped->input, "fill in the cell");
  try {
    return quantity_of(text, *where.input, mapping_.acid_basis);
  } catch (const InputError& error) {
    throw InputError(fmt::format("row {}: {}: {}", repeat.row->line, where.mapped->input, error.what()), error.hint());
  }
}

void Gauge::set(const std::vector<Repeat>& repeats) {
  auto& given = ready_->steps.front().given;
  for (const auto& where : where_)
    if (!where.mapped->repeated) {
      given.erase(where.input);
      const auto there =
          std::find_if(repeats.begin(), repeats.end(), [&](const Repeat& r) { return !text_of(where, r).empty(); });
      if (there != repeats.end()) given[where.input] = value_of(where, *there);
    }
  if (rows_input_ == nullptr) return;
  Value rows;
  for (const auto& repeat : repeats) {
    Row& row = rows.rows.emplace_back();
    for (const auto& where : where_)
      if (where.mapped->repeated) row.own.push_back({where.input, value_of(where, repeat)});
  }
  given[rows_input_] = std::move(rows);
}

Answer Gauge::answer(const SampleRows& rows) {
  Answer answer;
  const auto repeats = repeats_in(rows);
  answer.readings = repeats.size();
  if (repeats.empty() || !ready_) return answer;
  if (result_.calculation.empty())
    for (const auto& repeat : repeats)
      column_.decimals = std::max(column_.decimals, decimals_in(text_of(where_.front(), repeat)));
  try {
    if (rows_input_ == nullptr && repeats.size() > 1)
      throw InputError(fmt::format("{} readings, and {} takes one", repeats.size(), result_.calculation),
                       "name in the mapping, under 'repeats', the input that takes several");
    set(repeats);
    Worksheet sheet;
    bench_.run_steps(*ready_, {}, sheet);
    take(sheet, answer);
  } catch (const InputError& error) {
    answer.amiss.push_back(std::string(error.what()) + (error.hint().empty() ? "" : "; " + error.hint()));
  } catch (const BadInput& error) {
    answer.amiss.push_back(in_short(error.what()));
  }
  return answer;
}

void Gauge::take(const Worksheet& sheet, Answer& answer) {
  const StepSheet& step = sheet.steps.front();
  reagents_.insert(step.reagents.begin(), step.reagents.end());
  for (const auto& check : step.outcome.checks)
    if (!check.holds) answer.amiss.push_back(check.name + " FAILS: " + check.remedy);
  if (step.outcome.results.empty()) return;
  const auto& result = step.outcome.results.front();
  if (result_.calculation.empty()) {
    answer.value = result.number;
  } else {
    const Unit unit = parse_unit(result.info->unit);
    column_.unit = result.info->unit;
    column_.decimals = result.info->decimals;
    answer.value = unit.number(result.number);
    if (!step.result_spreads.empty())
      answer.standard = unit.spread(step.result_spreads.front().standard, result.number);
    return take_facts(step, answer);
  }
  if (!step.result_spreads.empty()) answer.standard = step.result_spreads.front().standard;
  if (fact_ == nullptr) return;
  const Unit unit = parse_unit(column_.unit);
  Fact fact{fact_, {}};
  fact.value.number = unit.coherent(result.number);
  const Unit of_fact = parse_unit(fact_->unit);
  if (const double number = of_fact.number(fact.value.number);
      fact_->valid && (number < fact_->valid->low || number > fact_->valid->high))
    answer.amiss.push_back(fmt::format("{:g} {} is outside what can be, {:g} to {:g}; look at the reading and its unit",
                                       number, fact_->unit, fact_->valid->low, fact_->valid->high));
  fact.value.uncertainty = answer.standard * std::abs(unit.slope(result.number));
  answer.facts.push_back(std::move(fact));
}

// What the calculation changes of a lot, with the ± of the result that it is.
void Gauge::take_facts(const StepSheet& step, Answer& answer) const {
  const auto& results = step.outcome.results;
  for (const auto& changed : step.outcome.changes) {
    Fact fact{changed.key, changed.value};
    for (std::size_t i = 0; i < std::min(results.size(), step.result_spreads.size()); ++i)
      if (results[i].number == changed.value.number && results[i].info->dimension == changed.key->dimension)
        fact.value.uncertainty = step.result_spreads[i].standard;
    answer.facts.push_back(std::move(fact));
  }
}

}  // namespace vatwright::intake
